import http from 'node:http'

/** A plain proxy: each request goes to the next instance in turn, nothing is sticky, the host stays as it was asked for. */
export function roundRobin(
  port: number,
  targets: readonly number[],
): Promise<{ counts: number[]; close: () => void }> {
  const counts = targets.map(() => 0)
  let turn = 0
  const server = http.createServer((request, response) => {
    const index = turn++ % targets.length
    counts[index] = (counts[index] ?? 0) + 1
    const seen = request.socket.remoteAddress ?? ''
    const passed = http.request(
      {
        host: '127.0.0.1',
        port: targets[index],
        method: request.method,
        path: request.url,
        headers: { ...request.headers, 'x-forwarded-for': seen },
      },
      (answer) => {
        response.writeHead(answer.statusCode ?? 502, answer.headers)
        answer.pipe(response)
      },
    )
    passed.on('error', () => {
      if (!response.headersSent) response.writeHead(502)
      response.end()
    })
    response.on('close', () => passed.destroy())
    request.pipe(passed)
  })
  return new Promise((resolve) => {
    server.listen(port, '127.0.0.1', () =>
      resolve({
        counts,
        close: () => {
          server.close()
          server.closeAllConnections()
        },
      }),
    )
  })
}
