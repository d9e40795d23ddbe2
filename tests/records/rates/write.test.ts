import { beforeEach, describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { readRateHistory, readRates } from '@/lib/records/rates/read'
import { changeRates } from '@/lib/records/rates/write'
import { db } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import { roleMay } from '@/lib/server/permissions'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'

let owner: Actor
let baseId: number

beforeEach(async () => {
  await freshDatabase()
  owner = await actorWithRole('owner')
  baseId = (
    await db.rateSheet.create({ data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' } })
  ).id
})

const dearer = { ...defaultShopRates, marginPpm: 350_000 }

describe('The rates', () => {
  it('in force are the newest; the sheet before stays with its reason', async () => {
    await changeRates({ baseId, reasonText: 'the rent went up', rates: dearer }, owner)
    expect((await readRates()).rates.marginPpm).toBe(350_000)
    const history = await readRateHistory({ take: 10 })
    expect(history.map(({ reasonText, rates }) => [reasonText, rates.marginPpm])).toEqual([
      ['the rent went up', 350_000],
      ['starting figures', 300_000],
    ])
  })

  it('changed by two at the same moment are changed once', async () => {
    const change = () => changeRates({ baseId, reasonText: 'the rent went up', rates: dearer }, owner)
    const outcomes = await Promise.allSettled([change(), change()])
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(await db.rateSheet.count()).toBe(2)
  })

  it('stay as they were when a change fails half-way', async () => {
    await refuseHistory()
    const change = changeRates({ baseId, reasonText: 'the rent went up', rates: dearer }, owner)
    await expect(change).rejects.toThrow('history is refused')
    expect(await db.rateSheet.count()).toBe(1)
  })

  it('are the owner’s to change, and hidden from the bench', () => {
    expect(roleMay('office', 'shop.write')).toBe(false)
    expect(roleMay('bench', 'shop.read')).toBe(false)
  })
})
