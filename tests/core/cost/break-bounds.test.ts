import { describe, expect, it } from 'vitest'
import { breakEven, crossingPieceCount } from '@/lib/core/cost/break-even'
import { breakFor, dominatedRanges, orderPrice, quotedBreaks, unitCostCents } from '@/lib/core/cost/breaks'

describe('price steps', () => {
  const steps = [
    { fromPieceCount: 100, unitPriceCents: 900 },
    { fromPieceCount: 1, unitPriceCents: 1000 },
    { fromPieceCount: 1000, unitPriceCents: 850 },
  ]

  it('hold from their count on, in whatever order they stand', () => {
    expect([1, 99, 100, 999, 1000, 5000].map((count) => breakFor(steps, count)?.unitPriceCents)).toEqual([
      1000, 1000, 900, 900, 850, 850,
    ])
    expect(breakFor(steps, 0)).toBeNull()
    expect(breakFor([], 5)).toBeNull()
  })

  it('make a larger order cheaper only where it costs less, the cheapest of all', () => {
    // 900.00 for 100: so do 90 at 10.00. From 101 on no later step costs less than what is ordered.
    expect(orderPrice(steps, 90).cheaperLargerOrder).toBeNull()
    expect(orderPrice(steps, 91).cheaperLargerOrder).toEqual({ pieceCount: 100, totalCents: 90_000 })
    expect(orderPrice(steps, 100).cheaperLargerOrder).toBeNull()
    // 1000 at 8.50 are 8500.00: less than 945 at 9.00, 8505.00, not than 944.
    expect(orderPrice(steps, 945).cheaperLargerOrder).toEqual({ pieceCount: 1000, totalCents: 850_000 })
    expect(orderPrice(steps, 944).cheaperLargerOrder).toBeNull()
    // By hand: 9 at 10.00 are 90.00, 10 at 8.00 80.00, 12 at 6.00 72.00; 20 at 5.00 cost more again.
    const falling = [
      { fromPieceCount: 1, unitPriceCents: 1000 },
      { fromPieceCount: 10, unitPriceCents: 800 },
      { fromPieceCount: 12, unitPriceCents: 600 },
      { fromPieceCount: 20, unitPriceCents: 500 },
    ]
    expect(orderPrice(falling, 9).cheaperLargerOrder).toEqual({ pieceCount: 12, totalCents: 7200 })
  })

  it('are beaten over every range where the next one costs less in all', () => {
    // 90 at 10.00 tie with 100 at 9.00; 944 at 9.00 are 8496.00, 945 are 8505.00 against 8500.00.
    expect(dominatedRanges(steps)).toEqual([
      { fromPieceCount: 91, toPieceCount: 99, cheaperPieceCount: 100, cheaperTotalCents: 90_000 },
      { fromPieceCount: 945, toPieceCount: 999, cheaperPieceCount: 1000, cheaperTotalCents: 850_000 },
    ])
    // One count only: 2 at 10.00 against 3 at 6.00. The whole step where even its first piece is dearer.
    expect(
      dominatedRanges([
        { fromPieceCount: 1, unitPriceCents: 1000 },
        { fromPieceCount: 3, unitPriceCents: 600 },
      ]),
    ).toMatchObject([{ fromPieceCount: 2, toPieceCount: 2 }])
    expect(
      dominatedRanges([
        { fromPieceCount: 5, unitPriceCents: 1000 },
        { fromPieceCount: 8, unitPriceCents: 100 },
      ]),
    ).toMatchObject([{ fromPieceCount: 5, toPieceCount: 7 }])
    // 9 x 10.00 = 90.00 = 10 x 9.00: a tie beats nobody.
    expect(
      dominatedRanges([
        { fromPieceCount: 1, unitPriceCents: 1000 },
        { fromPieceCount: 10, unitPriceCents: 900 },
      ]),
    ).toEqual([])
  })

  it('begin at whole counts from one, each once, and there is one at least', () => {
    const from = (...counts: number[]) =>
      counts.map((fromPieceCount) => ({ fromPieceCount, unitPriceCents: 5 }))
    for (const count of [0, -1, 1.5]) {
      expect(() => breakFor(from(count), 9)).toThrow(
        new RangeError(`A price step starts at a whole number of pieces from 1, not ${count}.`),
      )
    }
    expect(() => dominatedRanges(from(4, 2, 4))).toThrow(new RangeError('Two price steps start at 4 pieces.'))
    expect(() => orderPrice([], 1)).toThrow(new RangeError('A price list needs at least one step.'))
    for (const count of [0, 0.5]) {
      expect(() => unitCostCents(1, 1, count)).toThrow(
        new RangeError(`An order has one piece or more, not ${count}.`),
      )
    }
    expect(unitCostCents(12, 3, 1)).toBe(15)
  })

  it('are quoted from the fewest pieces up', () => {
    const costs = [25, 1, 5].map((fromPieceCount) => ({ fromPieceCount, unitCostCents: 100 }))
    expect(
      quotedBreaks(costs, (cost) => 2 * cost).map(({ fromPieceCount, totalCents }) => [
        fromPieceCount,
        totalCents,
      ]),
    ).toEqual([
      [1, 200],
      [5, 1000],
      [25, 5000],
    ])
    expect(costs.map(({ fromPieceCount }) => fromPieceCount)).toEqual([25, 1, 5])
  })
})

describe('make or buy', () => {
  it('is a tie within half a cent, at both sides', () => {
    const cheaper = (buy: number) =>
      breakEven(
        () => 100,
        () => buy,
        1,
      ).ranges[0]?.cheaper
    expect([99.4, 99.5, 99.6, 100, 100.4, 100.5, 100.6].map(cheaper)).toEqual([
      'buy',
      'buy',
      'tie',
      'tie',
      'tie',
      'make',
      'make',
    ])
  })

  it('tells each change of side with both costs, and the first', () => {
    // Making costs 100 a piece, buying 250 and from 4 on 350: 1, 2 | 3 | 4 and up.
    const found = breakEven(
      (count) => 100 * count,
      (count) => (count < 4 ? 250 : 350),
      9,
    )
    expect(found.ranges).toEqual([
      { fromPieceCount: 1, cheaper: 'make', makeCents: 100, buyCents: 250 },
      { fromPieceCount: 3, cheaper: 'buy', makeCents: 300, buyCents: 250 },
    ])
    expect(found).toMatchObject({ switchPieceCount: 3, lookedUpTo: 9, text: 'make to 2, buy from 3' })
  })

  it('says of one side at one count only', () => {
    const say = (costs: number[]) =>
      breakEven(
        () => 5,
        (count) => costs[count - 1] ?? 0,
        costs.length,
      )
    expect(say([9, 1, 9]).text).toBe('make at 1, buy at 2, make from 3')
    expect(say([9, 9, 1, 1, 9]).text).toBe('make to 2, buy to 4, make from 5')
    expect(say([9, 9]).text).toBe('make at every count up to 2')
    expect(say([9, 9]).switchPieceCount).toBeNull()
    // The last count looked at is looked at.
    expect(say([9, 9, 1]).switchPieceCount).toBe(3)
    expect(
      breakEven(
        () => 1,
        () => 2,
      ).lookedUpTo,
    ).toBe(200)
  })

  it('crosses where both lines are straight and meet above zero', () => {
    const line = (fixedCents: number, eachCents: number) => ({ fixedCents, eachCents })
    expect(crossingPieceCount(line(100, 1), line(0, 3))).toEqual({ found: true, pieceCount: 50 })
    expect(crossingPieceCount(line(0, 3), line(100, 1))).toEqual({ found: true, pieceCount: 50 })
    // They meet at nothing: no count.
    expect(crossingPieceCount(line(5, 1), line(5, 3))).toEqual({ found: false, because: 'never-above-zero' })
    expect(crossingPieceCount(line(5, 1), line(9, 1))).toEqual({ found: false, because: 'parallel' })
  })
})
