import { describe, expect, it } from 'vitest'
import { firstFitDecreasing } from '@/lib/core/stock/first-fit'
import type { BarKind, CutPiece } from '@/lib/core/stock/nest-plan'

const bought = (barLengthMm: number, costCents: number, kerfMm = 0): BarKind => ({
  source: 'buy',
  kind: 'bar',
  keys: [`buy ${barLengthMm}`],
  costCents,
  barCount: null,
  cutting: { barLengthMm, kerfMm, endTrimMm: 0, trimFarEnd: false },
})
const onRack = (barLengthMm: number, costCents: number, barCount: number): BarKind => ({
  ...bought(barLengthMm, costCents),
  source: 'rack',
  keys: Array.from({ length: barCount }, (_, i) => `rack ${barLengthMm} ${i}`),
  barCount,
})
const pieces = (...lots: readonly (readonly [lengthMm: number, pieceCount: number])[]): CutPiece[] =>
  lots.map(([lengthMm, pieceCount]) => ({ key: `${lengthMm}`, lengthMm, pieceCount }))

/** Each bar opened as its length, its counts and how many are cut so. */
const plan = (wanted: CutPiece[], kinds: BarKind[]) =>
  firstFitDecreasing(wanted, kinds)?.map(({ kind, pattern, barCount }) => [
    kind.source,
    kind.cutting.barLengthMm,
    pattern.counts,
    barCount,
  ]) ?? null

describe('longest pieces first, each in the first bar with room', () => {
  it('pairs long with short whatever the order asked in', () => {
    // By hand: 6 + 4 and 6 + 4 fill two bars of 10; shortest first needs three: 4 + 4, 6, 6.
    expect(plan(pieces([4, 2], [6, 2]), [bought(10, 10)])).toEqual([['buy', 10, [1, 1], 2]])
    expect(plan(pieces([6, 2], [4, 2]), [bought(10, 10)])).toEqual([['buy', 10, [1, 1], 2]])
  })

  it('takes the first bar opened, down to its last millimetre, not the next', () => {
    // By hand: 6 opens a bar, 5 another; 4 fills the first, 1 goes to the second.
    expect(plan(pieces([6, 1], [5, 1], [4, 1], [1, 1]), [bought(10, 10)])).toEqual([
      ['buy', 10, [1, 0, 1, 0], 1],
      ['buy', 10, [0, 1, 0, 1], 1],
    ])
  })

  it('needs a kerf between pieces', () => {
    // By hand, kerf 1: 6 leaves 10 - 7 = 3, so 4 does not fit; 5 leaves 10 - 6 = 4, where it ends the bar.
    expect(plan(pieces([6, 1], [5, 1], [4, 1]), [bought(10, 10, 1)])).toEqual([
      ['buy', 10, [1, 0, 0], 1],
      ['buy', 10, [0, 1, 1], 1],
    ])
  })

  it('is no best plan: 4, 4, 3, 3, 3, 3 out of 10 want a third bar', () => {
    // By hand: 4+4, then 3+3+3, then 3; the best is 4+3+3 twice.
    expect(plan(pieces([4, 2], [3, 4]), [bought(10, 10)])).toEqual([
      ['buy', 10, [2, 0], 1],
      ['buy', 10, [0, 3], 1],
      ['buy', 10, [0, 1], 1],
    ])
  })
})

describe('a bar to open', () => {
  it('is the one whose millimetre costs least', () => {
    // A cent a millimetre or nine tenths, whichever of the two lengths has it.
    expect(plan(pieces([2500, 1]), [bought(6000, 6000), bought(3000, 2700)])).toEqual([['buy', 3000, [1], 1]])
    expect(plan(pieces([2500, 1]), [bought(3000, 3000), bought(6000, 5400)])).toEqual([['buy', 6000, [1], 1]])
  })

  it('is the shorter of two at the same price, in any order, and the first of two alike', () => {
    for (const kinds of [
      [bought(6000, 6000), bought(3000, 3000)],
      [bought(3000, 3000), bought(6000, 6000)],
    ])
      expect(plan(pieces([2500, 1]), kinds)).toEqual([['buy', 3000, [1], 1]])
    expect(plan(pieces([2500, 1]), [onRack(3000, 3000, 1), bought(3000, 3000)])).toEqual([
      ['rack', 3000, [1], 1],
    ])
  })

  it('is long enough for the piece, to its last millimetre', () => {
    const kinds = [bought(6000, 6000), bought(3000, 2700)]
    expect(plan(pieces([3000, 1]), kinds)).toEqual([['buy', 3000, [1], 1]])
    expect(plan(pieces([3001, 1]), kinds)).toEqual([['buy', 6000, [1], 1]])
    expect(plan(pieces([6001, 1]), kinds)).toBeNull()
  })

  it('is on the rack only as often as it lies there', () => {
    const kinds = [onRack(3000, 0, 2), bought(3000, 3000)]
    expect(plan(pieces([2900, 3]), kinds)).toEqual([
      ['rack', 3000, [1], 2],
      ['buy', 3000, [1], 1],
    ])
    expect(plan(pieces([2900, 2]), [onRack(3000, 0, 2)])).toEqual([['rack', 3000, [1], 2]])
    expect(plan(pieces([2900, 3]), [onRack(3000, 0, 2)])).toBeNull()
  })

  it('of another length is another bar, though it is cut alike', () => {
    expect(plan(pieces([1900, 2]), [onRack(3000, 0, 1), onRack(2000, 0, 1)])).toEqual([
      ['rack', 2000, [1], 1],
      ['rack', 3000, [1], 1],
    ])
  })

  it('tells what is used of it and left', () => {
    // By hand, kerf 2: 700 and 200 with two kerfs are 904 of 1000.
    const [only] = firstFitDecreasing(pieces([700, 1], [200, 1]), [bought(1000, 10, 2)]) ?? []
    expect(only?.pattern).toEqual({ counts: [1, 1], usedMm: 904, leftoverMm: 96 })
  })
})
