import 'server-only'
import { PrismaPg } from '@prisma/adapter-pg'
import { env } from '@/lib/server/env'
import { Prisma, PrismaClient } from '@/lib/server/generated/prisma/client'

export type Tx = Prisma.TransactionClient
export { Prisma }

const kept = globalThis as { bendwrightDb?: PrismaClient }

function client(): PrismaClient {
  kept.bendwrightDb ??= new PrismaClient({
    adapter: new PrismaPg({ connectionString: env().DATABASE_URL, max: 10 }),
    transactionOptions: { maxWait: 10_000, timeout: 30_000 },
  })
  return kept.bendwrightDb
}

/** The database, connected on first use: `next build` imports this module without one. */
export const db: PrismaClient = new Proxy({} as PrismaClient, {
  get(_target, property) {
    const value: unknown = Reflect.get(client(), property)
    return typeof value === 'function' ? (value.bind(client()) as unknown) : value
  },
})
