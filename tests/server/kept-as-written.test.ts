import { beforeAll, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { db } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import { bentPart } from '@/tests/records/job/bent-part'
import { freshDatabase } from '@/tests/support/database'

beforeAll(async () => {
  await freshDatabase()
  const { revisionId } = await bentPart()
  const { id: rateSheetId } = await db.rateSheet.create({
    data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' },
  })
  await db.estimate.create({
    data: {
      revisionId,
      number: 1,
      way: 'lowMelt',
      quantities: [6],
      rateSheetId,
      overrides: [],
      inputs: {},
      results: {},
    },
  })
  await db.decision.create({
    data: {
      revisionId,
      quantity: 6,
      way: 'lowMelt',
      whyText: 'Pot and press are here.',
      comparison: {},
      inputsHash: '',
    },
  })
})

it.each([
  `update "Estimate" set way = 'hollow'`,
  'delete from "Estimate"',
  `update "Decision" set "whyText" = 'Another reason.'`,
  'delete from "Decision"',
])('refuses: %s', async (statement) => {
  await expect(db.$executeRawUnsafe(statement)).rejects.toThrow(/is kept as it was written/)
  expect(await db.estimate.findFirst({ select: { way: true } })).toEqual({ way: 'lowMelt' })
  expect(await db.decision.findFirst({ select: { whyText: true } })).toEqual({
    whyText: 'Pot and press are here.',
  })
})

it('lets both go while the demo shop is removed, and only then', async () => {
  await db.$transaction(async (tx) => {
    await tx.$executeRaw`set local bendwright.removing_demo = 'on'`
    expect(await tx.$executeRaw`delete from "Decision"`).toBe(1)
    expect(await tx.$executeRaw`delete from "Estimate"`).toBe(1)
  })
  expect(await db.estimate.count()).toBe(0)
})
