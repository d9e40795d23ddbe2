import { describe, expect, it } from 'vitest'
import { outsideToleranceMm } from '@/lib/core/materials/outside-tolerance'
import { type TubeStandard, thinnestWallMm, wallToleranceMm } from '@/lib/core/materials/tube-tolerance'

const round = (outsideIn: number, wallIn: number) => ({
  shape: 'round' as const,
  outsideMm: outsideIn * 25.4,
  wallMm: wallIn * 25.4,
})
const square = (outsideMm: number, wallMm: number) => ({ shape: 'square' as const, outsideMm, wallMm })
const wallIn = (outsideIn: number, wall: number, standard: TubeStandard) => {
  const { minusMm, plusMm, note, status } = wallToleranceMm(round(outsideIn, wall), standard)
  return { minus: minusMm / 25.4, plus: plusMm / 25.4, note, status }
}

describe('the wall of extruded tube (ANSI H35.2, as a trade table quotes it)', () => {
  // Mean wall, inches, by wall and by outside diameter under 1.25, 3, 5 and from 5 in.
  const table = [
    [0.05, 0.007, 0.008, 0.008, 0.01],
    [0.065, 0.008, 0.008, 0.009, 0.012],
    [0.1, 0.009, 0.009, 0.01, 0.015],
    [0.188, 0.009, 0.009, 0.013, 0.02],
    [0.3, 0.011, 0.011, 0.016, 0.025],
  ] as const
  const outsides = [1, 2, 4, 6] as const
  const cells = table.flatMap(([wall, ...means]) =>
    means.map((mean, column) => [wall, outsides[column] ?? 0, mean] as const),
  )
  it.each(cells)(
    'of %f in, %f in across, stacks a mean of %f on a tenth of the mean wall',
    (wall, outside, mean) => {
      // Any point: a tenth of the mean wall, 0.010 to 0.060 in, on top of the mean wall's own deviation.
      const found = wallIn(outside, wall, 'h35.2-extruded')
      expect(found.minus).toBeCloseTo(mean + Math.max((wall - mean) / 10, 0.01), 9)
      expect(found.plus).toBeCloseTo(mean + Math.max((wall + mean) / 10, 0.01), 9)
      expect(found.note).toBeUndefined()
    },
  )
  it('puts 1.25, 3 and 5 in, as the table’s "to 1.249", into the next column', () => {
    const mean = (outside: number, wall: number) => wallIn(outside, wall, 'h35.2-extruded').minus - 0.01
    expect(mean(1.249, 0.05)).toBeCloseTo(0.007, 9)
    expect(mean(1.25, 0.05)).toBeCloseTo(0.008, 9)
    expect(mean(2.999, 0.065)).toBeCloseTo(0.008, 9)
    expect(mean(3, 0.065)).toBeCloseTo(0.009, 9)
    expect(mean(4.999, 0.065)).toBeCloseTo(0.009, 9)
    expect(mean(5, 0.065)).toBeCloseTo(0.012, 9)
  })
  it('is no more than 0.060 in about a thick mean wall, and says where the table ends', () => {
    // 0.9 + 0.011 and more in ten is over 0.060.
    expect(wallIn(2.5, 0.9, 'h35.2-extruded').plus).toBeCloseTo(0.011 + 0.06, 9)
    expect(wallIn(2.5, 0.9, 'h35.2-extruded').note).toMatch(/no row/)
    expect(wallIn(1, 0.04, 'h35.2-extruded').note).toMatch(/no row/)
    expect(wallIn(1, 0.047, 'h35.2-extruded').note).toBeUndefined()
    expect(wallIn(1, 0.0465, 'h35.2-extruded').note).toBeUndefined()
  })
})

describe('the wall by other standards', () => {
  it('drawn: 0.003, 0.004 and 0.005 in or a tenth, the larger (from memory)', () => {
    expect(wallIn(1, 0.025, 'h35.2-drawn').minus).toBeCloseTo(0.003, 9)
    expect(wallIn(1, 0.049, 'h35.2-drawn').minus).toBeCloseTo(0.0049, 9)
    expect(wallIn(2, 0.12, 'h35.2-drawn').minus).toBeCloseTo(0.012, 9)
    expect(wallIn(2, 0.25, 'h35.2-drawn')).toMatchObject({
      status: 'memory',
      note: expect.stringMatching(/no row/),
    })
    expect(wallIn(2, 0.2, 'h35.2-drawn').note).toBeUndefined()
  })
  it('A513 type 5: its seen rows, each within its diameters; else 5 percent and said to be unseen', () => {
    expect(wallIn(2, 0.083, 'a513-5')).toMatchObject({
      minus: expect.closeTo(0.003, 9),
      plus: expect.closeTo(0.003, 9),
    })
    expect(wallIn(3.75, 0.12, 'a513-5').minus).toBeCloseTo(0.004, 9)
    for (const [outside, wall] of [
      [0.874, 0.065],
      [1.876, 0.065],
      [1.875, 0.12],
      [3.76, 0.12],
      [2, 0.095],
    ] as const) {
      const found = wallIn(outside, wall, 'a513-5')
      expect(found).toMatchObject({
        status: 'memory',
        minus: expect.closeTo(0.05 * wall, 9),
        plus: expect.closeTo(0.05 * wall, 9),
      })
    }
    expect(wallIn(0.875, 0.065, 'a513-5').status).toBe('secondary')
    expect(wallIn(1.875, 0.065, 'a513-5').status).toBe('secondary')
  })
  it('A269: 15 percent under half an inch, 10 from there', () => {
    expect(wallIn(0.49, 0.035, 'a269').minus).toBeCloseTo(0.15 * 0.035, 9)
    expect(wallIn(0.5, 0.035, 'a269').minus).toBeCloseTo(0.0035, 9)
  })
  it('EN: 10219 a tenth to 5 mm, then 0.5 mm; 10210 minus a tenth, plus 6 percent of mass; 10305-1 a tenth or 0.1 mm', () => {
    expect(wallToleranceMm(square(100, 5), 'en10219').plusMm).toBeCloseTo(0.5, 9)
    expect(wallToleranceMm(square(100, 4), 'en10219').plusMm).toBeCloseTo(0.4, 9)
    expect(wallToleranceMm(square(100, 10), 'en10219')).toMatchObject({ minusMm: 0.5, plusMm: 0.5 })
    expect(wallToleranceMm(square(100, 5), 'en10210')).toMatchObject({
      minusMm: 0.5,
      plusMm: expect.closeTo(0.3, 9),
    })
    expect(wallToleranceMm(square(30, 0.8), 'en10305-1')).toMatchObject({ minusMm: 0.1, plusMm: 0.1 })
    expect(wallToleranceMm(square(30, 2), 'en10305-1').minusMm).toBeCloseTo(0.2, 9)
  })
  it.each(['a513-1', 'a500', 'a554', 'b338', 'assumed-10-percent'] as const)('%s: a tenth', (standard) => {
    expect(wallToleranceMm(square(50, 3), standard)).toMatchObject({
      minusMm: expect.closeTo(0.3, 9),
      plusMm: expect.closeTo(0.3, 9),
    })
    expect(thinnestWallMm(square(50, 3), standard)).toBeCloseTo(2.7, 9)
  })
  it('is refused of no wall, and of a wall that leaves no bore', () => {
    expect(() => wallToleranceMm(square(50, 0), 'a500')).toThrow(RangeError)
    expect(() => wallToleranceMm(square(50, -1), 'a500')).toThrow(RangeError)
    expect(() => wallToleranceMm(square(50, 25), 'a500')).toThrow(RangeError)
    expect(() => outsideToleranceMm(square(0, 1), 'a500')).toThrow(RangeError)
  })
})

describe('the outside', () => {
  const plusMm = (outsideMm: number, standard: TubeStandard, shape: 'round' | 'square' = 'round') =>
    outsideToleranceMm({ shape, outsideMm, wallMm: 1 }, standard).plusMm
  it('EN 10219-2 and EN 10210-2 round: 1 percent, 0.5 to 10 mm', () => {
    for (const standard of ['en10219', 'en10210'] as const) {
      expect(plusMm(33.7, standard)).toBe(0.5)
      expect(plusMm(219.1, standard)).toBeCloseTo(2.191, 9)
      expect(plusMm(1219, standard)).toBe(10)
      expect(plusMm(100, standard, 'square')).toBeCloseTo(1, 9)
    }
  })
  it('A554: 0.13 mm to 1 in, 0.20 to 1½, 0.28 to 2, and says so beyond', () => {
    expect([25.4, 25.5, 38.1, 38.2, 50.8].map((size) => plusMm(size, 'a554'))).toEqual([
      0.13, 0.2, 0.2, 0.28, 0.28,
    ])
    const note = (size: number) =>
      outsideToleranceMm({ shape: 'round', outsideMm: size, wallMm: 1 }, 'a554').note
    expect(note(50.8)).toBeUndefined()
    expect(note(60)).toMatch(/no row/)
  })
  it('B338: 0.102 mm under 1 in, 0.127 to 1½', () => {
    expect([25.3, 25.4, 38.1].map((size) => plusMm(size, 'b338'))).toEqual([0.102, 0.127, 0.127])
    const note = (size: number) =>
      outsideToleranceMm({ shape: 'round', outsideMm: size, wallMm: 1 }, 'b338').note
    expect(note(38.1)).toBeUndefined()
    expect(note(40)).toMatch(/no row/)
  })
  it('A269: 0.005 in under 1½, 0.010 from there; A500 round 0.5 percent to 1.9 in, then 0.75', () => {
    expect(plusMm(38, 'a269')).toBeCloseTo(0.127, 9)
    expect(plusMm(38.1, 'a269')).toBeCloseTo(0.254, 9)
    expect(plusMm(48.26, 'a500')).toBeCloseTo(0.2413, 9)
    expect(plusMm(50.8, 'a500')).toBeCloseTo(0.381, 9)
  })
  it('drawn and A513 type 1 by their tables (drawn from memory), in inches', () => {
    const inches = (sizes: readonly number[], standard: TubeStandard) =>
      sizes.map((size) => Number((plusMm(size * 25.4, standard) / 25.4).toFixed(6)))
    expect(inches([0.75, 1, 1.5, 2, 2.5, 3], 'h35.2-drawn')).toEqual([
      0.004, 0.004, 0.005, 0.005, 0.006, 0.006,
    ])
    expect(inches([1, 1.125, 1.5, 2, 2.25, 2.5, 2.75, 3], 'a513-1')).toEqual([
      0.0035, 0.0035, 0.005, 0.005, 0.006, 0.006, 0.008, 0.008,
    ])
    expect(inches([2.25, 3], 'a513-5')).toEqual([0.007, 0.009])
    expect(inches([3, 4.5], 'h35.2-extruded')).toEqual([0.03, 0.05])
  })
  it('EN 10305-1: 0.15 mm for 30 to 40 mm (from memory), else 1 percent as common practice', () => {
    expect([30, 35, 40, 45].map((size) => plusMm(size, 'en10305-1'))).toEqual([0.3, 0.15, 0.15, 0.45])
    for (const standard of [
      'h35.2-drawn',
      'a513-1',
      'a513-5',
      'a554',
      'a269',
      'b338',
      'assumed-10-percent',
    ] as const)
      expect(outsideToleranceMm(square(50, 2), standard)).toMatchObject({ plusMm: 0.5, status: 'memory' })
  })
  it('of shaped tube: extruded widths at the corners and A500 sides, inches', () => {
    const inches = (size: number, standard: TubeStandard) =>
      Number((plusMm(size * 25.4, standard, 'square') / 25.4).toFixed(6))
    expect([0.8, 1, 2, 4].map((size) => inches(size, 'h35.2-extruded'))).toEqual([0.014, 0.018, 0.025, 0.035])
    expect([2.5, 3.5, 4, 5.5].map((size) => inches(size, 'a500'))).toEqual([0.02, 0.025, 0.03, 0.03])
  })
})

it('says what a limit leaves out where its standard does, and nothing where it does not', () => {
  // Source: ASTM A500 excepts the weld seam; ASTM A554 and EN 10219-2 limit the wall alone.
  expect(wallIn(2, 0.12, 'a500').note).toBe('The weld is left out of the limit.')
  for (const standard of ['a554', 'en10219'] as const)
    expect(Object.keys(wallToleranceMm(round(2, 0.12), standard))).not.toContain('note')
})
