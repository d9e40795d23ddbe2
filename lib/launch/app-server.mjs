import { fork } from 'node:child_process'
import { fromRoot, ROOT } from './root.mjs'
import { Stop } from './steps.mjs'

const START_LIMIT_MS = 90_000

/**
 * Serves the built app (or, with `dev`, the sources) until stopped. `onDeath` is called if it ends unasked.
 * @param {{ host: string, port: number, env: Record<string, string>, dev?: boolean, output?: 'inherit' | number,
 *   onDeath?: (reason: string) => void }} options `output` is where its words go, a file descriptor or this terminal
 */
export async function startApp({ host, port, env, dev = false, output = 'inherit', onDeath }) {
  const child = fork(
    fromRoot('node_modules', 'next', 'dist', 'bin', 'next'),
    [dev ? 'dev' : 'start', '-H', host, '-p', String(port)],
    {
      cwd: ROOT,
      // Away from the terminal's process group: Ctrl-C reaches only the launcher, which stops things in order.
      detached: process.platform !== 'win32',
      execArgv: ['die-with-parent', 'settle-requests'].flatMap((name) => [
        '--import',
        new URL(`./${name}.mjs`, import.meta.url).href,
      ]),
      env: {
        ...process.env,
        NODE_ENV: dev ? 'development' : 'production',
        NEXT_TELEMETRY_DISABLED: '1',
        BENDWRIGHT_LAUNCHER_PID: String(process.pid),
        ...env,
      },
      stdio: ['ignore', output, output, 'ipc'],
    },
  )
  let stopping = false
  const gone = new Promise((resolve) => {
    child.once('exit', (code, signal) => resolve(signal ?? `exit code ${code}`))
    child.once('error', (error) => resolve(error.message))
  })
  const stop = async () => {
    stopping = true
    child.kill('SIGTERM')
    const lastResort = setTimeout(() => child.kill('SIGKILL'), 10_000)
    await gone
    clearTimeout(lastResort)
  }
  const url = `http://${reachable(host)}:${port}`
  await Promise.race([
    untilHealthy(url, () => stopping),
    gone.then((reason) => {
      if (!stopping) throw new Stop(`The app ended while starting (${reason}); its own words are above.`)
    }),
  ]).catch(async (error) => {
    await stop()
    throw error
  })
  void gone.then((reason) => {
    if (!stopping) onDeath?.(reason)
  })
  return { url, stop, pid: child.pid }
}

async function untilHealthy(url, givenUp) {
  const giveUpMs = Date.now() + START_LIMIT_MS
  while (!givenUp()) {
    try {
      const answer = await fetch(`${url}/api/health`, { signal: AbortSignal.timeout(START_LIMIT_MS) })
      if (answer.ok) return
    } catch {
      // not listening yet
    }
    if (Date.now() > giveUpMs)
      throw new Stop(`The app does not answer at ${url} after ${START_LIMIT_MS / 1000} s.`)
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
}

/** An address to open for what the server listens on: "every interface" is no address. */
function reachable(host) {
  if (host === '0.0.0.0') return '127.0.0.1'
  if (host === '::') return '[::1]'
  return host.includes(':') ? `[${host}]` : host
}
