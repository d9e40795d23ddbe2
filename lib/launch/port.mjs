import net from 'node:net'

/** Some port nobody listens on. */
export function freePort(host = '127.0.0.1') {
  return new Promise((resolve, reject) => {
    const server = net.createServer().once('error', reject)
    server.listen(0, host, () => {
      const { port } = server.address()
      server.close(() => resolve(port))
    })
  })
}

/** Why `port` can't be used: null when it can. */
export function portFault(port, host) {
  return new Promise((resolve) => {
    const server = net.createServer()
    server.once('error', (error) => resolve(error.code))
    server.listen(port, host, () => server.close(() => resolve(null)))
  })
}

/** `wanted` if it is free, otherwise the next free port above it; `fault` says why `wanted` was not taken. */
export async function nextFreePort(wanted, host) {
  const fault = await portFault(wanted, host)
  if (fault === null) return { port: wanted, fault }
  if (fault !== 'EADDRINUSE' && fault !== 'EACCES') return { port: null, fault }
  const from = fault === 'EACCES' ? 3000 : wanted + 1
  for (let port = from; port < Math.min(from + 100, 65_536); port += 1) {
    if ((await portFault(port, host)) === null) return { port, fault }
  }
  return { port: await freePort(host), fault }
}
