import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type BarCutting,
  patternOf,
  piecesPerBar,
  roomMm,
  usefulPatterns,
} from '@/lib/core/stock/cut-patterns'

const bar = (barLengthMm: number, more: Partial<BarCutting> = {}): BarCutting => ({
  barLengthMm,
  kerfMm: 0,
  endTrimMm: 0,
  trimFarEnd: false,
  ...more,
})
const nothingKept = { fromMm: Number.POSITIVE_INFINITY }

describe('the room of a bar', () => {
  it('is the bar less the crop, and a kerf more where the last piece ends at the bar’s end', () => {
    // By hand: 6000 - 10 + 3 = 5993, and 6000 - 10 = 5990 where the far end is cut too.
    const cutting = { kerfMm: 3, endTrimMm: 10 }
    expect(roomMm(bar(6000, cutting))).toBe(5993)
    expect(roomMm(bar(6000, { ...cutting, trimFarEnd: true }))).toBe(5990)
  })

  it('is nothing where the crop takes the whole bar', () => {
    expect(roomMm(bar(8, { kerfMm: 1, endTrimMm: 10 }))).toBe(0)
    expect(piecesPerBar(5, bar(8, { kerfMm: 1, endTrimMm: 10 }))).toBe(0)
  })
})

describe('the pieces of one length in a bar', () => {
  // By hand: three of 80 and two kerfs of 1 are 242; with a third kerf 243.
  it.each([
    [242, false, 3],
    [241.9, false, 2],
    [243, true, 3],
    [242.9, true, 2],
  ])('out of %f with the far end cut %s are %i', (lengthMm, trimFarEnd, pieces) => {
    expect(piecesPerBar(80, bar(lengthMm, { kerfMm: 1, trimFarEnd }))).toBe(pieces)
  })

  it('lose none to the last digit of a length in inches', () => {
    // Three of 1.1 inches, 27.94 mm, are 83.82 mm; half a millionth of a millimetre is no lack, two millionths are.
    expect(piecesPerBar(27.94, bar(83.82 - 5e-7))).toBe(3)
    expect(piecesPerBar(27.94, bar(83.82 - 2e-6))).toBe(2)
  })
})

describe('a pattern', () => {
  const lengthsMm = [1000, 400]
  const counts = [2, 1]
  // By hand, kerf 3: 2 x 1003 + 403 = 2409 with each kerf, 2406 where the last piece needs none.

  it.each([
    // bar, far end cut, left over, used
    [2500, false, 91, 2409],
    [2500, true, 91, 2409],
    [2410, false, 1, 2409],
    [2409, false, 0, 2409],
    [2409, true, 0, 2409],
    // The rest is less than a kerf: it goes with the saw.
    [2408, false, 0, 2408],
    [2406, false, 0, 2406],
  ])('out of a bar of %i with the far end cut %s leaves %i', (lengthMm, trimFarEnd, leftoverMm, usedMm) => {
    expect(patternOf(counts, lengthsMm, bar(lengthMm, { kerfMm: 3, trimFarEnd }))).toEqual({
      counts,
      usedMm,
      leftoverMm,
    })
  })

  it.each([
    [2405.9, false],
    [2406 - 2e-6, false],
    [2408.9, true],
  ])('does not fit a bar of %f with the far end cut %s', (lengthMm, trimFarEnd) => {
    expect(patternOf(counts, lengthsMm, bar(lengthMm, { kerfMm: 3, trimFarEnd }))).toBeNull()
  })

  it('fits where the lack is no more than the last digit of a length in inches', () => {
    expect(patternOf(counts, lengthsMm, bar(2406 - 5e-7, { kerfMm: 3 }))?.leftoverMm).toBe(0)
  })

  it('counts the crop as used', () => {
    // By hand: 2409 and a crop of 20.
    expect(patternOf(counts, lengthsMm, bar(2500, { kerfMm: 3, endTrimMm: 20 }))).toMatchObject({
      usedMm: 2429,
      leftoverMm: 71,
    })
  })
})

describe('the patterns worth having', () => {
  const listed = (
    demand: { lengthsMm: number[]; pieceCounts: number[] },
    cutting: BarCutting,
    keep = nothingKept,
    most = 1000,
  ) => usefulPatterns(demand, cutting, keep, most)?.map(({ counts }) => counts) ?? null
  const fourAndThree = { lengthsMm: [4, 3], pieceCounts: [9, 9] }

  it('are those no further piece fits in: 4 and 3 out of 10 in three ways', () => {
    // By hand: 4+4 leaves 2, 4+3+3 leaves 0, 3+3+3 leaves 1; 4+3 leaves 3, so another 3 fits.
    const found = [
      [2, 0],
      [1, 2],
      [0, 3],
    ]
    expect(listed(fourAndThree, bar(10))).toEqual(found)
    expect(usefulPatterns(fourAndThree, bar(10), nothingKept, 1000)?.map((one) => one.leftoverMm)).toEqual([
      2, 0, 1,
    ])
  })

  it('hold no more of a length than is wanted', () => {
    // One of each: 4+3 is all, though another 3 would fit.
    expect(listed({ lengthsMm: [4, 3], pieceCounts: [1, 1] }, bar(10))).toEqual([[1, 1]])
    expect(listed({ lengthsMm: [4, 3], pieceCounts: [1, 9] }, bar(10))).toEqual([
      [1, 2],
      [0, 3],
    ])
    expect(listed({ lengthsMm: [4, 3], pieceCounts: [0, 2] }, bar(10))).toEqual([[0, 2]])
  })

  it('need room for each kerf', () => {
    // Kerf 1, room 10 + 1: 5+5 leaves 1, 5+4 leaves 2, 4+4 leaves 3, where a 3 and its kerf do not fit.
    expect(listed(fourAndThree, bar(10, { kerfMm: 1 }))).toEqual([
      [2, 0],
      [1, 1],
      [0, 2],
    ])
    // Room 12 + 1: 5+4+4 and 4+4+4+1 are full; 5+4 leaves just room for 3 and its kerf, so it is not listed.
    expect(listed(fourAndThree, bar(12, { kerfMm: 1 }))).toEqual([
      [2, 0],
      [1, 2],
      [0, 3],
    ])
  })

  it('are also those that leave an offcut worth keeping', () => {
    // Left over: 4+3 leaves 3, a single 4 leaves 6, 3+3 leaves 4, a single 3 leaves 7.
    expect(listed(fourAndThree, bar(10), { fromMm: 3 })).toEqual([
      [2, 0],
      [1, 2],
      [1, 1],
      [1, 0],
      [0, 3],
      [0, 2],
      [0, 1],
    ])
    expect(listed(fourAndThree, bar(10), { fromMm: 6 })).toEqual([
      [2, 0],
      [1, 2],
      [1, 0],
      [0, 3],
      [0, 1],
    ])
    expect(listed(fourAndThree, bar(10), { fromMm: 6.5 })).toEqual([
      [2, 0],
      [1, 2],
      [0, 3],
      [0, 1],
    ])
  })

  it('take an offcut that lacks the last digit of the length kept', () => {
    const singles = (fromMm: number) =>
      listed(fourAndThree, bar(10), { fromMm })?.filter(([four]) => four === 1)
    expect(singles(6 + 5e-7)).toContainEqual([1, 0])
    expect(singles(6 + 2e-6)).not.toContainEqual([1, 0])
  })

  it('are never a bar that is not cut, nor any where nothing fits', () => {
    expect(listed(fourAndThree, bar(10), { fromMm: 0 })).not.toContainEqual([0, 0])
    expect(listed(fourAndThree, bar(2))).toEqual([])
    expect(listed({ lengthsMm: [], pieceCounts: [] }, bar(10))).toEqual([])
  })

  it('are left to another method where there are more than wanted', () => {
    expect(listed(fourAndThree, bar(10), nothingKept, 3)).toHaveLength(3)
    expect(listed(fourAndThree, bar(10), nothingKept, 2)).toBeNull()
  })

  it('are left to another method past a hundred ways looked at for each wanted', () => {
    // Pieces of 2: a bar of 398 is cut in 200 ways (0 to 199 pieces), only the full one listed; a bar of 400 in 201.
    const twos = { lengthsMm: [2], pieceCounts: [500] }
    expect(listed(twos, bar(398), nothingKept, 2)).toEqual([[199]])
    expect(listed(twos, bar(400), nothingKept, 2)).toBeNull()
  })

  it('fit, are full or leave what is kept, and miss none', () => {
    const problem = fc.record({
      lengthsMm: fc.uniqueArray(fc.integer({ min: 2, max: 9 }), { minLength: 1, maxLength: 3 }),
      wanted: fc.integer({ min: 1, max: 4 }),
      barMm: fc.integer({ min: 1, max: 30 }),
      kerfMm: fc.integer({ min: 0, max: 2 }),
      trimFarEnd: fc.boolean(),
      fromMm: fc.integer({ min: 1, max: 12 }),
    })
    fc.assert(
      fc.property(problem, ({ lengthsMm, wanted, barMm, kerfMm, trimFarEnd, fromMm }) => {
        const pieceCounts = lengthsMm.map(() => wanted)
        const found = listed({ lengthsMm, pieceCounts }, bar(barMm, { kerfMm, trimFarEnd }), { fromMm })
        // All counts there are, by plain counting; what is left of n pieces is bar - pieces - their kerfs, one fewer at the bar's end.
        const all = lengthsMm.reduce<number[][]>(
          (ways, _) => ways.flatMap((way) => Array.from({ length: wanted + 1 }, (_, n) => [...way, n])),
          [[]],
        )
        const left = (counts: readonly number[], kerfless: number): number => {
          const pieces = counts.reduce((sum, n) => sum + n, 0)
          const piecesMm = counts.reduce((sum, n, i) => sum + n * (lengthsMm[i] ?? 0), 0)
          return barMm - piecesMm - kerfMm * (pieces - kerfless)
        }
        const fits = (counts: readonly number[]): boolean => left(counts, trimFarEnd ? 0 : 1) >= 0
        const worth = all.filter((counts) => {
          if (counts.every((n) => n === 0) || !fits(counts)) return false
          const full = counts.every((n, i) => n === wanted || !fits(counts.with(i, n + 1)))
          return full || left(counts, 0) >= fromMm
        })
        expect(found?.map(String).sort()).toEqual(worth.map(String).sort())
      }),
      { numRuns: 150 },
    )
  })
})
