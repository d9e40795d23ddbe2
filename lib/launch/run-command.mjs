import { spawn } from 'node:child_process'
import { ROOT } from './root.mjs'
import { beforeEnding } from './shutdown.mjs'
import { Stop, say, secondsSince } from './steps.mjs'

const HEARTBEAT_MS = 20_000

/**
 * Runs a program in the clone's folder; rejects when it fails. With `capture` its standard output is handed back
 * instead of shown, with `quiet` its output is only shown when it fails.
 */
export async function runCommand(
  title,
  command,
  args,
  { env = {}, capture = false, quiet = false, shell = false } = {},
) {
  const startedMs = Date.now()
  const result = await runToEnd(title, command, args, {
    env,
    shell,
    piped: capture || quiet,
    mixErrors: quiet,
  })
  if (result.exitCode !== 0) {
    if (quiet) process.stderr.write(result.output)
    throw new Stop(`${title} failed after ${secondsSince(startedMs).trim()} (${result.reason}).`)
  }
  return result.output
}

/** Like runCommand, but a failure is an answer, not an error. */
export function runToEnd(
  title,
  command,
  args,
  { env = {}, shell = false, piped = false, mixErrors = false } = {},
) {
  const startedMs = Date.now()
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: ROOT,
      env: { ...process.env, ...env },
      shell,
      stdio: ['ignore', piped ? 'pipe' : 'inherit', mixErrors ? 'pipe' : 'inherit'],
    })
    const done = beforeEnding(() => child.kill('SIGTERM'))
    const chunks = []
    child.stdout?.on('data', (chunk) => chunks.push(chunk))
    child.stderr?.on('data', (chunk) => chunks.push(chunk))
    const heartbeat = setInterval(
      () => say(`${title}: ${secondsSince(startedMs).trim()} so far`),
      HEARTBEAT_MS,
    )
    const finish = (exitCode, reason) => {
      clearInterval(heartbeat)
      done()
      resolve({ exitCode, reason, output: Buffer.concat(chunks).toString('utf8') })
    }
    child.once('error', (error) => finish(-1, error.message))
    child.once('close', (code, signal) => finish(code ?? -1, signal ?? `exit code ${code}`))
  })
}

/** Runs one of the installed command-line tools, by the file its package names. */
export const runTool = (title, file, args, options) =>
  runCommand(title, process.execPath, [file, ...args], options)
