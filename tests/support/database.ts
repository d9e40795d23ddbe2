import pg from 'pg'
import { inject } from 'vitest'
import { PrismaClient } from '@/lib/server/generated/prisma/client'
import { OneAtATimePg } from '@/lib/server/one-at-a-time'
import { templateDatabase } from './database-setup'

/** Where lib/server/db keeps its client between reloads; what is put here is what it uses. */
const kept = globalThis as { bendwrightDb?: PrismaClient }
let cloneCount = 0

/**
 * A database of this test's own, cloned from the migrated template: empty tables, every constraint. From here on
 * `db` of lib/server/db is connected to it. Call it in beforeAll (one for the file) or beforeEach (one a test).
 */
export async function freshDatabase(): Promise<{ url: string; db: PrismaClient }> {
  const adminUrl = inject('databaseAdminUrl')
  cloneCount += 1
  const name = `clone_${process.pid}_${process.hrtime.bigint()}_${cloneCount}`
  const admin = new pg.Client({ connectionString: adminUrl })
  await admin.connect()
  await admin.query(`create database "${name}" template "${templateDatabase}"`)
  await admin.end()

  await kept.bendwrightDb?.$disconnect()
  const url = adminUrl.replace(/\/postgres$/, `/${name}`)
  process.env.DATABASE_URL = url
  kept.bendwrightDb = new PrismaClient({
    adapter: new OneAtATimePg({ connectionString: url, max: 6 }),
    transactionOptions: { maxWait: 10_000, timeout: 30_000 },
  })
  return { url, db: kept.bendwrightDb }
}
