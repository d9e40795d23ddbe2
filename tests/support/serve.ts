import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { startApp } from '@/lib/launch/app-server.mjs'
import { setupKey } from '@/lib/launch/data-folder.mjs'
import { migrate } from '@/lib/launch/migrate.mjs'
import { startPostgres, THROWAWAY } from '@/lib/launch/postgres.mjs'
import { buildApp, generateClient } from '@/lib/launch/prepare.mjs'
import { fromRoot } from '@/lib/launch/root.mjs'

/** Builds what `npm start` builds and serves it on a new database, both gone again when the tests are over. */
export default async function serve(): Promise<() => Promise<void>> {
  await generateClient()
  await buildApp()
  const dataFolder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-e2e-'))
  fs.chmodSync(dataFolder, 0o755) // as root the server runs as another user, who must be able to enter
  const database = await startPostgres({ folder: dataFolder, settings: THROWAWAY })
  await migrate(database.url)

  fs.mkdirSync(fromRoot('reports'), { recursive: true })
  const log = fs.openSync(fromRoot('reports', 'e2e-app.log'), 'w')
  const app = await startApp({
    host: '127.0.0.1',
    port: Number(process.env.BENDWRIGHT_E2E_PORT),
    output: log,
    env: {
      DATABASE_URL: database.url,
      BENDWRIGHT_DATA: dataFolder,
      BENDWRIGHT_SETUP_KEY: setupKey(dataFolder),
      BENDWRIGHT_DEMO: '0',
    },
  })
  // Workers start after this and inherit it.
  process.env.BENDWRIGHT_E2E_DATABASE_URL = database.url
  process.env.BENDWRIGHT_E2E_SETUP_KEY = setupKey(dataFolder)
  return async () => {
    await app.stop()
    await database.stop()
    fs.closeSync(log)
    fs.rmSync(dataFolder, { recursive: true, force: true })
  }
}
