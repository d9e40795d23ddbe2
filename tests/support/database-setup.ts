import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import pg from 'pg'
import type { TestProject } from 'vitest/node'
import { migrate } from '@/lib/launch/migrate.mjs'
import { startPostgres, THROWAWAY } from '@/lib/launch/postgres.mjs'

declare module 'vitest' {
  export interface ProvidedContext {
    databaseAdminUrl: string
  }
}

export const templateDatabase = 'migrated_template'

/** One real server for all test files, with a migrated database that each of them clones. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-records-'))
  fs.chmodSync(folder, 0o755) // as root the server runs as another user, who must be able to enter
  let server: Awaited<ReturnType<typeof startPostgres>> | undefined
  const tearDown = async () => {
    await server?.stop()
    fs.rmSync(folder, { recursive: true, force: true })
  }
  try {
    server = await startPostgres({ folder, database: templateDatabase, settings: THROWAWAY })
    await migrate(server.url)
    const admin = new pg.Client({ connectionString: server.urlOf('postgres') })
    await admin.connect()
    await admin.query(`alter database "${templateDatabase}" is_template true`)
    await admin.end()
    project.provide('databaseAdminUrl', server.urlOf('postgres'))
  } catch (error) {
    await tearDown()
    throw error
  }
  return tearDown
}
