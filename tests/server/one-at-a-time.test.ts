import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { db } from '@/lib/server/db'
import { freshDatabase } from '../support/database'

/** pg says it once a process, so this file has to be the first in its process to cause it: each file has its own. */
const warnings: string[] = []
const note = (warning: Error) => warnings.push(warning.message)

beforeAll(async () => {
  process.on('warning', note)
  await freshDatabase()
})
afterAll(() => {
  process.off('warning', note)
})

it('a transaction that loads several relations, or asks for several things at once, sends one query at a time', async () => {
  const results = await db.$transaction(async (tx) => {
    const customer = await tx.customer.create({ data: { name: 'Kestrel Harbour Works' } })
    const loaded = await tx.customer.findUniqueOrThrow({
      where: { id: customer.id },
      include: { contacts: true, parts: { include: { revisions: true } }, quotes: true, jobs: true },
    })
    const counts = await Promise.all([tx.customer.count(), tx.part.count(), tx.quote.count()])
    return { name: loaded.name, counts }
  })
  expect(results).toEqual({ name: 'Kestrel Harbour Works', counts: [1, 0, 0] })
  // Warnings are told in a later turn.
  await vi.waitFor(() => new Promise((done) => setImmediate(done)))
  expect(warnings.filter((text) => /already executing a query/.test(text))).toEqual([])
})

it('a query that fails is told to its asker, and the next of the broken transaction', async () => {
  await expect(
    db.$transaction(async (tx) => {
      await expect(tx.$executeRaw`select 1 / 0`).rejects.toThrow(/division by zero/)
      await expect(tx.customer.count()).rejects.toThrow(/aborted/)
      throw new Error('undone')
    }),
  ).rejects.toThrow('undone')
  expect(await db.customer.count()).toBe(1)
})
