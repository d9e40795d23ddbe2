import { describe, expect, it } from 'vitest'
import { receivingRatesOf } from '@/lib/core/cost/landed'
import { nestedMaterialCost, perLengthMaterialCost } from '@/lib/core/cost/material-cost'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { nestPieces } from '@/lib/core/stock/nest'

describe('tube cost', () => {
  it('of a cutting plan is what is bought less what goes back, and each start more by the metre', async () => {
    // By hand: 4 x 1400 out of 6000 with kerf 2: 4 x 1402 = 5608 leaves 392, from 300 on worth 5.00 a metre = 1.96; bar 72.00, net 70.04
    // a start more: 1.402 m at 12.00 = 16.82
    const found = await nestPieces({
      pieces: [{ key: 'arm', lengthMm: 1400, pieceCount: 4 }],
      rack: [],
      buyable: [{ key: 'six', lengthMm: 6000, priceCents: 7200 }],
      kerfMm: 2,
      endTrimMm: 0,
      trimFarEnd: false,
      keepOffcutFromMm: 300,
      offcutValueCentsPerM: 500,
    })
    if (!found.found) throw new Error(found.because)
    const cost = nestedMaterialCost(found.plan, {
      plannedStarts: 4,
      cutLengthMm: 1400,
      kerfMm: 2,
      centsPerM: 1200,
    })
    expect(cost).toMatchObject({ plannedStarts: 4, plannedCents: 7004, extraStartCents: 1682 })
    expect(cost.from).toContain('1 of 6000 mm to buy')
  })

  it('of a plan names what is bought and what comes from the rack, each if there is any', async () => {
    const plan = async (rackMm: readonly number[], pieceCount: number) => {
      const found = await nestPieces({
        pieces: [{ key: 'arm', lengthMm: 1400, pieceCount }],
        rack: rackMm.map((lengthMm, index) => ({ key: `r${index}`, lengthMm, kind: 'offcut', costCents: 0 })),
        buyable: [{ key: 'six', lengthMm: 6000, priceCents: 7200 }],
        kerfMm: 2,
        endTrimMm: 0,
        trimFarEnd: false,
        keepOffcutFromMm: 300,
        offcutValueCentsPerM: 500,
      })
      if (!found.found) throw new Error(found.because)
      const job = { plannedStarts: pieceCount, cutLengthMm: 1400, kerfMm: 2, centsPerM: 1200 }
      return nestedMaterialCost(found.plan, job).from.split('; ')[0]
    }
    expect(await plan([1500], 1)).toBe('1 from the rack')
    expect(await plan([], 1)).toBe('1 of 6000 mm to buy')
    expect(await plan([1500], 2)).toBe('1 of 6000 mm to buy, 1 from the rack')
  })

  it('by the metre takes a price of nothing and one start, and no length, price or start below that', () => {
    const job = { plannedStarts: 1, cutLengthMm: 1400, kerfMm: 2, centsPerM: 0 }
    expect(perLengthMaterialCost(job)).toMatchObject({ plannedCents: 0, extraStartCents: 0 })
    expect(perLengthMaterialCost(job).from).toBe('1 starts of 1400 mm by the metre')
    expect(() => perLengthMaterialCost({ ...job, centsPerM: -1 })).toThrow(RangeError)
    expect(() => perLengthMaterialCost({ ...job, cutLengthMm: 0 })).toThrow(RangeError)
  })

  it('by the metre is starts times length and kerf', () => {
    // By hand: 1.402 m at 12.00 = 16.82 a start, eight of them 134.56
    const cost = perLengthMaterialCost({ plannedStarts: 8, cutLengthMm: 1400, kerfMm: 2, centsPerM: 1200 })
    expect(cost).toMatchObject({ plannedCents: 13_456, extraStartCents: 1682 })
    expect(() =>
      perLengthMaterialCost({ plannedStarts: 0, cutLengthMm: 1400, kerfMm: 2, centsPerM: 1200 }),
    ).toThrow(RangeError)
  })
})

describe('receiving work', () => {
  it('puts the allowance on once', () => {
    // 3 likely minutes a piece * 1.15 = 3.45
    expect(receivingRatesOf(defaultShopRates).perPieceMinutes.likely).toBeCloseTo(3.45, 12)
    expect(receivingRatesOf(defaultShopRates).officeCentsPerH).toBe(defaultShopRates.labourCentsPerH.office)
  })
})
