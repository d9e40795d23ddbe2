import { expect, it } from 'vitest'
import { fillerBalances } from '@/lib/records/tooling/read'
import { db } from '@/lib/server/db'
import { freshDatabase } from '@/tests/support/database'

it('holds the same to the last digit in whatever order the moves of a pot are added', async () => {
  await freshDatabase()
  const pot = (shopNumber: string) =>
    db.filler.create({ data: { shopNumber, name: 'Pot', fillerId: 'bi-158' }, select: { id: true } })
  const [first, second] = [await pot('F-1'), await pot('F-2')]
  // As floats 0.1 + 0.2 + 0.3 and 0.3 + 0.2 + 0.1 differ in the last digit.
  for (const [{ id }, masses] of [
    [first, [0.1, 0.2, 0.3, -0.6]],
    [second, [-0.6, 0.3, 0.2, 0.1]],
  ] as const)
    for (const massKg of masses)
      await db.fillerEntry.create({ data: { fillerId: id, kind: massKg < 0 ? 'poured' : 'bought', massKg } })
  const balances = await fillerBalances(db)
  expect(balances.get(first.id)).toEqual({ inPotKg: 0, pouredKg: 0.6, recoveredKg: 0, lostKg: 0 })
  expect(balances.get(second.id)).toEqual(balances.get(first.id))
})
