import { spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { freePort } from '@/lib/launch/port.mjs'
import { fromRoot } from '@/lib/launch/root.mjs'

const giveUpMs = 120_000

export type StartTimes = { firstMs: number; warmMs: number }

/**
 * `npm start` in a clone that is installed and built, until the app says it is ready: on an empty data folder, where the
 * database is made and brought up to date, and again on the same folder.
 */
export async function measureStarts(): Promise<StartTimes> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-start-'))
  fs.chmodSync(folder, 0o755) // as root the server runs as another user, who must be able to enter
  try {
    const firstMs = await startOnce(folder)
    return { firstMs, warmMs: await startOnce(folder) }
  } finally {
    fs.rmSync(folder, { recursive: true, force: true })
  }
}

async function startOnce(folder: string): Promise<number> {
  const port = await freePort()
  const log = fs.openSync(path.join(folder, 'start.log'), 'a')
  const startedMs = performance.now()
  const launcher = spawn(process.execPath, [fromRoot('lib', 'launch', 'start.mjs')], {
    cwd: fromRoot(),
    env: {
      ...process.env,
      DATABASE_URL: undefined,
      NODE_OPTIONS: '',
      PORT: String(port),
      BENDWRIGHT_DATA: folder,
      BENDWRIGHT_BACKUP: 'off',
    },
    stdio: ['ignore', log, log],
  })
  const gone = once(launcher, 'exit')
  try {
    for (;;) {
      const answer = await fetch(`http://127.0.0.1:${port}/api/ready`).catch(() => null)
      if (answer?.ok) return performance.now() - startedMs
      if (launcher.exitCode !== null || performance.now() - startedMs > giveUpMs) {
        throw new Error(`The app did not start:\n${fs.readFileSync(path.join(folder, 'start.log'), 'utf8')}`)
      }
      await new Promise((resolve) => setTimeout(resolve, 25))
    }
  } finally {
    launcher.kill('SIGTERM')
    await gone
  }
}
