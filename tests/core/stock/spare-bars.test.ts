import { describe, expect, it } from 'vitest'
import { patternOf } from '@/lib/core/stock/cut-patterns'
import type { BarKind, ChosenPattern } from '@/lib/core/stock/nest-plan'
import { preferShorterBars, withoutSurplus } from '@/lib/core/stock/spare-bars'

const lengthsMm = [1000, 400]
const bar = (barLengthMm: number, more: Partial<BarKind> = {}): BarKind => ({
  source: 'buy',
  kind: 'bar',
  keys: [`${barLengthMm}`],
  costCents: barLengthMm,
  barCount: null,
  cutting: { barLengthMm, kerfMm: 3, endTrimMm: 0, trimFarEnd: false },
  ...more,
})
const chosen = (kind: BarKind, counts: readonly number[], barCount = 1): ChosenPattern => {
  const pattern = patternOf(counts, lengthsMm, kind.cutting)
  if (!pattern) throw new Error('does not fit')
  return { kind, pattern, barCount }
}
const countsOf = (plan: readonly ChosenPattern[]) => plan.map(({ pattern }) => pattern.counts)

describe('what nobody asked for', () => {
  it('is not cut: a whole bar first, the dearest, then single pieces', () => {
    const plan = withoutSurplus([chosen(bar(2100), [2, 0], 2), chosen(bar(3100), [3, 0])], {
      lengthsMm,
      pieceCounts: [4, 0],
    })
    // Seven rails for four: the bar of three goes first, and what is left is just enough.
    expect(countsOf(plan)).toEqual([
      [2, 0],
      [2, 0],
    ])
  })

  it('stays in the bar as a longer offcut', () => {
    const plan = withoutSurplus([chosen(bar(6000), [3, 5])], { lengthsMm, pieceCounts: [3, 2] })
    expect(countsOf(plan)).toEqual([[3, 2]])
    // 6000 less 3 rails and 2 stays with five kerfs of 3.
    expect(plan[0]?.pattern.leftoverMm).toBeCloseTo(6000 - 3800 - 15, 9)
    expect(plan[0]?.pattern.usedMm).toBeCloseTo(3800 + 15, 9)
  })

  it('is left alone where everything is wanted', () => {
    const plan = [chosen(bar(2100), [2, 0]), chosen(bar(1500), [1, 1])]
    expect(countsOf(withoutSurplus(plan, { lengthsMm, pieceCounts: [3, 1] }))).toEqual(countsOf(plan))
  })

  it('goes bar after bar while there is too much', () => {
    const plan = withoutSurplus([chosen(bar(1100), [1, 0], 3)], { lengthsMm, pieceCounts: [1, 0] })
    expect(countsOf(plan)).toEqual([[1, 0]])
  })

  it('leaves out the dearest bar first, and of two at one price the longer, in any order', () => {
    const rest = (...kinds: BarKind[]) =>
      withoutSurplus(
        kinds.map((kind) => chosen(kind, [1, 0])),
        { lengthsMm, pieceCounts: [1, 0] },
      ).map(({ kind }) => kind.cutting.barLengthMm)
    const [short, long] = [bar(1100, { costCents: 100 }), bar(6000, { costCents: 100 })]
    expect(rest(short, long)).toEqual([1100])
    expect(rest(long, short)).toEqual([1100])
    const dear = bar(1100, { costCents: 101 })
    expect(rest(dear, long)).toEqual([6000])
    expect(rest(long, dear)).toEqual([6000])
  })

  it('never takes away more than there is too much of', () => {
    const plan = withoutSurplus([chosen(bar(2500), [2, 1], 3)], { lengthsMm, pieceCounts: [5, 2] })
    const cut = [0, 1].map((piece) => plan.reduce((sum, one) => sum + (one.pattern.counts[piece] ?? 0), 0))
    expect(cut).toEqual([5, 2])
  })
})

describe('a long bar on the rack', () => {
  const long = bar(6000, { source: 'rack', barCount: 1, costCents: 0 })
  const short = bar(2100, { source: 'rack', barCount: 1, costCents: 0 })
  const free = () => 0

  it('stays whole where a shorter one holds the same cuts', () => {
    const plan = preferShorterBars([chosen(long, [2, 0])], [long, short], lengthsMm, free)
    expect(plan.map(({ kind }) => kind.cutting.barLengthMm)).toEqual([2100])
  })

  it('is cut where the shorter one is too short, is used, or leaves less', () => {
    const length = (plan: readonly ChosenPattern[]) => plan.map(({ kind }) => kind.cutting.barLengthMm)
    expect(length(preferShorterBars([chosen(long, [3, 0])], [long, short], lengthsMm, free))).toEqual([6000])
    expect(
      length(
        preferShorterBars([chosen(short, [2, 0]), chosen(long, [2, 0])], [long, short], lengthsMm, free),
      ),
    ).toEqual([2100, 6000])
    const dearer = (kind: BarKind) => (kind === short ? 10 : 5)
    expect(length(preferShorterBars([chosen(long, [2, 0])], [long, short], lengthsMm, dearer))).toEqual([
      6000,
    ])
  })

  it('to be bought is not exchanged', () => {
    const bought = bar(6000)
    const plan = preferShorterBars([chosen(bought, [2, 0])], [bought, short], lengthsMm, free)
    expect(plan[0]?.kind).toBe(bought)
  })

  it('gives its cuts to the shortest there is, in whatever order they lie', () => {
    const three = bar(3000, { source: 'rack', barCount: 1, costCents: 0 })
    for (const kinds of [
      [long, three, short],
      [short, three, long],
    ]) {
      const plan = preferShorterBars([chosen(long, [2, 0])], kinds, lengthsMm, free)
      expect(plan.map(({ kind }) => kind)).toEqual([short])
    }
  })

  it('stays whole once for each shorter one that lies free', () => {
    const longs = bar(6000, { source: 'rack', barCount: 2, costCents: 0 })
    const lengths = (plan: readonly ChosenPattern[]) => plan.map(({ kind }) => kind.cutting.barLengthMm)
    const twice = [chosen(longs, [2, 0], 2)]
    expect(lengths(preferShorterBars(twice, [longs, short], lengthsMm, free))).toEqual([2100, 6000])
    const shorts = { ...short, barCount: 2 }
    expect(lengths(preferShorterBars(twice, [longs, shorts], lengthsMm, free))).toEqual([2100, 2100])
    // One of the two is cut already.
    const cut = [chosen(shorts, [1, 1]), chosen(long, [2, 0])]
    expect(lengths(preferShorterBars(cut, [long, shorts], lengthsMm, free))).toEqual([2100, 2100])
  })

  it('that is freed may serve for a longer one', () => {
    // By hand: two rails go to the 2100; five rails and four kerfs, 5012, fit the 6000 that was meant for them.
    const longer = bar(7000, { source: 'rack', barCount: 1, costCents: 0 })
    const plan = preferShorterBars(
      [chosen(long, [2, 0]), chosen(longer, [5, 0])],
      [longer, long, short],
      lengthsMm,
      free,
    )
    expect(plan.map(({ kind }) => kind.cutting.barLengthMm)).toEqual([2100, 6000])
  })

  it('is not given up for one as long, a longer one or one to be bought', () => {
    const other = bar(2100, { source: 'rack', kind: 'offcut', barCount: 1, costCents: 0 })
    const toBuy = bar(2000, { barCount: 5, costCents: 0 })
    const kept = (kinds: BarKind[], counts: number[]) =>
      preferShorterBars([chosen(short, counts)], [short, ...kinds], lengthsMm, free)[0]?.kind
    expect(kept([other], [2, 0])).toBe(short)
    expect(kept([long], [2, 0])).toBe(short)
    expect(kept([toBuy], [1, 0])).toBe(short)
  })
})
