import 'server-only'
import { readdir } from 'node:fs/promises'
import path from 'node:path'
import { db } from '@/lib/server/db'
import { log } from '@/lib/server/log'

export type Readiness = { ready: true } | { ready: false; because: 'no-database' | 'migrations-missing' }

/** Whether the database answers and holds every migration this release brings. */
export async function readiness(): Promise<Readiness> {
  const entries = await readdir(path.join(process.cwd(), 'prisma', 'migrations'), { withFileTypes: true })
  const wanted = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name)
  try {
    const rows = await db.$queryRaw<{ name: string }[]>`
      select migration_name as name from "_prisma_migrations"
      where finished_at is not null and rolled_back_at is null`
    const done = new Set(rows.map((row) => row.name))
    return wanted.every((name) => done.has(name))
      ? { ready: true }
      : { ready: false, because: 'migrations-missing' }
  } catch (cause) {
    // Whoever asks is told that it is not ready; why stands in the log.
    log.error('database does not answer', cause)
    return { ready: false, because: 'no-database' }
  }
}
