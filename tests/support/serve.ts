import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { startApp } from '@/lib/launch/app-server.mjs'
import { setupKey } from '@/lib/launch/data-folder.mjs'
import { migrate } from '@/lib/launch/migrate.mjs'
import { freePort } from '@/lib/launch/port.mjs'
import { startPostgres, THROWAWAY } from '@/lib/launch/postgres.mjs'
import { buildApp, generateClient } from '@/lib/launch/prepare.mjs'
import { fromRoot } from '@/lib/launch/root.mjs'
import { roundRobin } from './round-robin'

/** Builds what `npm start` builds and serves it on a new database, both gone again when the tests are over. */
export default async function serve(): Promise<() => Promise<void>> {
  await generateClient()
  await buildApp()
  const steps: (() => unknown)[] = []
  const tearDown = async () => {
    for (const undo of steps.reverse()) await undo()
  }
  try {
    await serveInto(steps)
  } catch (error) {
    await tearDown()
    throw error
  }
  return tearDown
}

/** Notes at once how each thing that it starts is taken down again: what starts after it may fail. */
async function serveInto(undo: (() => unknown)[]): Promise<void> {
  const dataFolder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-e2e-'))
  undo.push(() => fs.rmSync(dataFolder, { recursive: true, force: true }))
  fs.chmodSync(dataFolder, 0o755) // as root the server runs as another user, who must be able to enter
  fs.mkdirSync(fromRoot('reports'), { recursive: true })
  const log = fs.openSync(fromRoot('reports', 'e2e-app.log'), 'w')
  undo.push(() => fs.closeSync(log))
  const database = await startPostgres({ folder: dataFolder, settings: THROWAWAY })
  undo.push(() => database.stop())
  await migrate(database.url)

  const wantedPort = Number(process.env.BENDWRIGHT_E2E_PORT)
  // Nobody listens there but the tests of mail: to all others the shop's mail server is out of reach.
  const mailPort = await freePort()
  const instanceCount = Number(process.env.BENDWRIGHT_E2E_INSTANCES ?? 1)
  const ports = instanceCount === 1 ? [wantedPort] : await freePorts(instanceCount)
  const env = {
    DATABASE_URL: database.url,
    BENDWRIGHT_DATA: dataFolder,
    BENDWRIGHT_SETUP_KEY: setupKey(dataFolder),
    BENDWRIGHT_DEMO: '0',
    BENDWRIGHT_URL: `http://127.0.0.1:${wantedPort}`,
    BENDWRIGHT_SMTP_URL: `smtp://127.0.0.1:${mailPort}`,
    BENDWRIGHT_SMTP_FROM: 'Tidewrack <office@tidewrack.test>',
    BENDWRIGHT_TRUSTED_PROXIES: instanceCount === 1 ? '0' : '1',
  }
  await Promise.all(
    ports.map(async (port) => {
      const app = await startApp({ host: '127.0.0.1', port, output: log, env })
      undo.push(() => app.stop())
    }),
  )
  if (instanceCount > 1) {
    const proxy = await roundRobin(wantedPort, ports)
    undo.push(() => {
      proxy.close()
      // A suite that only ever met one of the instances has shown nothing about two.
      console.log(`requests by instance: ${proxy.counts.join(', ')}`)
    })
  }
  // Workers start after this and inherit it.
  process.env.BENDWRIGHT_E2E_DATABASE_URL = database.url
  process.env.BENDWRIGHT_E2E_MAIL_PORT = String(mailPort)
  process.env.BENDWRIGHT_E2E_SETUP_KEY = setupKey(dataFolder)
}

async function freePorts(count: number): Promise<number[]> {
  const ports: number[] = []
  while (ports.length < count) ports.push(await freePort())
  return [...new Set(ports)].length === count ? ports : freePorts(count)
}
