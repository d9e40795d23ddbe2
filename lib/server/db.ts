import 'server-only'
import pg from 'pg'
import { env } from '@/lib/server/env'
import { Prisma, PrismaClient } from '@/lib/server/generated/prisma/client'
import { OneAtATimePg } from '@/lib/server/one-at-a-time'
import { statementName } from '@/lib/server/statement-name'

export type Tx = Prisma.TransactionClient
export { Prisma }

const kept = globalThis as { bendwrightDb?: PrismaClient; bendwrightPool?: pg.Pool }

function client(): PrismaClient {
  if (!kept.bendwrightDb) {
    kept.bendwrightPool = new pg.Pool({
      connectionString: env().DATABASE_URL,
      max: 10,
      application_name: 'bendwright',
    })
    // A connection that breaks while nobody uses it is replaced; whoever was using one is told by their own query.
    kept.bendwrightPool.on('error', () => {})
    kept.bendwrightDb = new PrismaClient({
      adapter: new OneAtATimePg(kept.bendwrightPool, {
        disposeExternalPool: true,
        statementNameGenerator: statementName,
      }),
      // Fifty people who log at once wait for ten connections: longer than that on a busy machine, and nobody is refused.
      transactionOptions: { maxWait: 20_000, timeout: 30_000 },
    })
  }
  return kept.bendwrightDb
}

/** The database, connected on first use: `next build` imports this module without one. */
export const db: PrismaClient = new Proxy({} as PrismaClient, {
  get(_target, property) {
    const value: unknown = Reflect.get(client(), property)
    return typeof value === 'function' ? (value.bind(client()) as unknown) : value
  },
})

/** How many connections there are, how many of them idle, and how many requests wait for one. */
export function poolState(): { totalCount: number; idleCount: number; waitingCount: number } {
  const { totalCount = 0, idleCount = 0, waitingCount = 0 } = kept.bendwrightPool ?? {}
  return { totalCount, idleCount, waitingCount }
}
