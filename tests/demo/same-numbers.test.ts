import { beforeAll, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { readLearnedFactor } from '@/lib/records/lesson/read'
import type { Tx } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import { loadDemo } from '@/prisma/demo/load'
import { actorWithRole } from '../support/actor'
import { freshDatabase } from '../support/database'

let db: Awaited<ReturnType<typeof freshDatabase>>['db']

beforeAll(async () => {
  ;({ db } = await freshDatabase())
  await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
  await db.rateSheet.create({ data: { rates: asJson(defaultShopRates) } })
  await loadDemo(await actorWithRole('owner'))
}, 60_000)

/** What every tube that was bent taught, asked for another way of holding it too. */
async function factors(tx: Tx): Promise<number[]> {
  const tubes = await tx.lesson.findMany({
    distinct: ['materialId', 'sectionText'],
    orderBy: [{ materialId: 'asc' }, { sectionText: 'asc' }],
    select: { materialId: true, sectionText: true },
  })
  const found: number[] = []
  for (const tube of tubes)
    for (const method of ['hollow', 'low-melt filler and strap'])
      found.push((await readLearnedFactor(tx, { ...tube, method })).mean)
  return found
}

// The database joins in another order once it has counted its tables: added in that order, a last digit would be another,
// and whoever saves an estimate would be told that something changed meanwhile.
it.each([
  [['nestloop']],
  [['hashjoin']],
  [['nestloop', 'mergejoin']],
  [['nestloop', 'hashjoin']],
  [['indexscan', 'bitmapscan']],
  [['seqscan', 'sort']],
])('what bends taught is the same to the last digit without %j', async (off) => {
  const plain = await db.$transaction(factors)
  const other = await db.$transaction(async (tx) => {
    for (const one of off) await tx.$executeRawUnsafe(`set local enable_${one} = off`)
    return factors(tx)
  })
  expect(plain.some((factor) => factor !== 1)).toBe(true)
  expect(other).toEqual(plain)
})
