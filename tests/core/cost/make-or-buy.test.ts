import { describe, expect, it } from 'vitest'
import { breakEven, crossingPieceCount } from '@/lib/core/cost/break-even'
import { breakFor, dominatedRanges, orderPrice, quotedBreaks, unitCostCents } from '@/lib/core/cost/breaks'
import { landedCost, type OutsideQuote, ownershipCents, type ReceivingRates } from '@/lib/core/cost/landed'
import { fixed } from '@/lib/core/cost/spread'

describe('break-even', () => {
  // Supply-chain text, chapter 5 solutions; Hillier & Lieberman solved problem 1.S1
  it.each([
    [125_000, 15, 5000, 17, 60_000],
    [25_000, 8, 3000, 12, 5500],
    [100_000, 75, 0, 100, 4000],
    [40_000, 5.5, 0, 8, 16_000],
  ])('of %i + %f Q against %i + %f Q is at %i pieces', (makeFixed, makeEach, buyFixed, buyEach, count) => {
    expect(
      crossingPieceCount(
        { fixedCents: makeFixed, eachCents: makeEach },
        { fixedCents: buyFixed, eachCents: buyEach },
      ),
    ).toEqual({
      found: true,
      pieceCount: count,
    })
  })

  it('has none for parallel lines or where one is always above', () => {
    expect(
      crossingPieceCount({ fixedCents: 5, eachCents: 1 }, { fixedCents: 9, eachCents: 1 }),
    ).toMatchObject({ because: 'parallel' })
    expect(
      crossingPieceCount({ fixedCents: 5, eachCents: 1 }, { fixedCents: 9, eachCents: 2 }),
    ).toMatchObject({
      because: 'never-above-zero',
    })
  })

  it('follows the kink of a least order: make to 11, buy from 12', () => {
    // By hand: make 247.50 + 97.50 / .9 a piece; buy 600 + 120 + 18.75 + 3.75 a piece + 62 a piece, at least 10 pieces bought and looked at.
    // Q 9: 1222.50 / 1392.50, 10: 1330.83 / 1396.25, 11: 1439.17 / 1462.00, 12: 1547.50 / 1527.75
    const make = (count: number): number => 24_750 + (9750 / 0.9) * count
    const buy = (count: number): number => 73_875 + 6575 * Math.max(count, 10)
    const found = breakEven(make, buy, 60)
    expect([9, 10, 11, 12].map((count) => Math.round(make(count)))).toEqual([
      122_250, 133_083, 143_917, 154_750,
    ])
    expect([10, 11, 12].map(buy)).toEqual([139_625, 146_200, 152_775])
    expect(found.switchPieceCount).toBe(12)
    expect(found.text).toBe('make to 11, buy from 12')
  })

  it('says so where nothing switches, and names a tie', () => {
    expect(
      breakEven(
        () => 1,
        () => 9,
        20,
      ).text,
    ).toBe('make at every count up to 20')
    expect(
      breakEven(
        (count) => count * 100,
        () => 500,
        9,
      ).text,
    ).toBe('make to 4, a tie at 5, buy from 6')
  })
})

describe('ownership cost', () => {
  it('lets the dearer unit price win by 29 120', () => {
    // Purchasing text, chapter 2: 12 000 pieces in lots of 1000, 22 lb each, LTL 1.20 a 2000 lb-mile, order 125, carrying 20 percent
    const shared = { pieceCount: 12_000, orderCents: 125, orderCount: 12, carryingFraction: 0.2 }
    const freight = (miles: number): number => (12_000 * 22 * 1.2 * miles) / 2000
    const one = ownershipCents({
      ...shared,
      unitPriceCents: 500,
      toolingCents: 22_000,
      freightCents: freight(125),
      qualityFraction: 0.02,
    })
    const two = ownershipCents({
      ...shared,
      unitPriceCents: 498,
      toolingCents: 20_000,
      freightCents: freight(100),
      qualityFraction: 0.03,
    })
    expect(one).toBeCloseTo(6_213_300, 6)
    expect(two).toBeCloseTo(6_242_420, 6)
    expect(two - one).toBeCloseTo(29_120, 6)
  })
})

const quote: OutsideQuote = {
  breaks: [{ fromPieceCount: 10, unitPriceCents: 6200 }],
  toolingCents: 60_000,
  setUpCents: 0,
  freightCents: 12_000,
  leadDays: { low: 10, likely: 15, high: 25 },
  rejectFraction: 0,
  replacesRejects: true,
}
/** 18.75 a delivery and 3.75 a piece: 15 and 3 minutes at 75.00 an hour. */
const receiving: ReceivingRates = {
  orderMinutes: fixed(0),
  perDeliveryMinutes: fixed(15),
  perPieceMinutes: fixed(3),
  officeCentsPerH: 6000,
  inspectionCentsPerH: 7500,
  overheadFactor: 0,
  contingencyFraction: 0,
  hoursPerDay: 8,
}

describe('landed cost', () => {
  it('is pieces, tooling, freight and receiving together', () => {
    // By hand: 12 * 62 + 600 + 120 + 18.75 + 12 * 3.75 = 1527.75
    const landed = landedCost(quote, 12, receiving)
    expect(landed.totalCents).toBe(152_775)
    expect(landed.perGoodPieceCents).toBeCloseTo(152_775 / 12, 9)
    expect(landed.lines.reduce((sum, { cents }) => sum + cents, 0)).toBe(landed.totalCents)
  })

  it('buys the least order for a smaller need and spreads it over the good pieces', () => {
    // By hand: ten bought for nine: 620 + 600 + 120 + 18.75 + 37.50 = 1396.25
    const landed = landedCost(quote, 9, receiving)
    expect(landed.orderedPieceCount).toBe(10)
    expect(landed.totalCents).toBe(139_625)
  })

  it('orders more where rejects are not made good', () => {
    // ceil(18 / .9) = 20
    expect(
      landedCost({ ...quote, rejectFraction: 0.1, replacesRejects: false }, 18, receiving).orderedPieceCount,
    ).toBe(20)
    // replaced ones are looked at twice: 18 / .9 = 20 looked at, 18 paid for
    const replaced = landedCost({ ...quote, rejectFraction: 0.1 }, 18, receiving)
    expect(replaced.orderedPieceCount).toBe(18)
    expect(replaced.totalCents).toBe(18 * 6200 + 60_000 + 12_000 + 1875 + 20 * 375)
  })

  it('raises the pieces to the least order in money', () => {
    expect(landedCost({ ...quote, minimumOrderCents: 100_000 }, 10, receiving).lines[0]).toMatchObject({
      cents: 100_000,
    })
  })

  it('refuses a reject rate of one and an order of nothing', () => {
    expect(() => landedCost({ ...quote, rejectFraction: 1 }, 5, receiving)).toThrow(RangeError)
    expect(() => landedCost(quote, 0, receiving)).toThrow(RangeError)
  })
})

describe('price breaks', () => {
  const breaks = [
    { fromPieceCount: 1, unitPriceCents: 1000 },
    { fromPieceCount: 100, unitPriceCents: 900 },
  ]

  it('are dominated from 91 up when 100 cost 9 each and fewer 10, with a tie at 90', () => {
    expect(dominatedRanges(breaks)).toEqual([
      { fromPieceCount: 91, toPieceCount: 99, cheaperPieceCount: 100, cheaperTotalCents: 90_000 },
    ])
    // Pieces times the step they reach.
    for (const [pieceCount, totalCents] of [
      [1, 1000],
      [99, 99_000],
      [100, 90_000],
      [250, 225_000],
    ] as const)
      expect(orderPrice(breaks, pieceCount)).toMatchObject({ orderedPieceCount: pieceCount, totalCents })
    // A list that begins at five sells no fewer.
    expect(orderPrice([{ fromPieceCount: 5, unitPriceCents: 700 }], 2)).toMatchObject({
      orderedPieceCount: 5,
      totalCents: 3500,
    })
    expect(orderPrice(breaks, 90).cheaperLargerOrder).toBeNull()
    expect(orderPrice(breaks, 91).cheaperLargerOrder).toEqual({ pieceCount: 100, totalCents: 90_000 })
    expect(breakFor(breaks, 99)?.unitPriceCents).toBe(1000)
    expect(breakFor([{ fromPieceCount: 5, unitPriceCents: 1 }], 4)).toBeNull()
  })

  it('are fair where each step\u2019s total goes up', () => {
    expect(
      dominatedRanges([
        { fromPieceCount: 1, unitPriceCents: 1000 },
        { fromPieceCount: 2, unitPriceCents: 900 },
      ]),
    ).toEqual([])
  })

  it('share a set-up: 120.00 and 8.50 each', () => {
    // S / Q + v: 128.50, 32.50, 20.50, 13.30, 9.70 at 1, 5, 10, 25, 100
    expect([1, 5, 10, 25, 100].map((count) => unitCostCents(12_000, 850, count))).toEqual([
      12_850, 3250, 2050, 1330, 970,
    ])
  })

  it('show both margin and markup of each step', () => {
    const [step] = quotedBreaks([{ fromPieceCount: 5, unitCostCents: 6000 }], (cost) => cost + 4000)
    expect(step).toMatchObject({ unitPriceCents: 10_000, totalCents: 50_000, marginFraction: 0.4 })
    expect(step?.markupFraction).toBeCloseTo(0.6667, 4)
  })

  it('refuse two steps at one count and an empty list', () => {
    expect(() => dominatedRanges([...breaks, { fromPieceCount: 1, unitPriceCents: 5 }])).toThrow(RangeError)
    expect(() => orderPrice([], 1)).toThrow(RangeError)
    expect(() => breakFor([{ fromPieceCount: 0.5, unitPriceCents: 5 }], 1)).toThrow(RangeError)
    expect(() => unitCostCents(1, 1, 0)).toThrow(RangeError)
  })
})
