import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { growBox, noBox, uprightRad } from '@/lib/core/drawing/ink'
import { angleText, lengthText, roundLengthMm } from '@/lib/core/drawing/length-text'
import { bestPlace, overlapPx, type Taken, textSpots, textWidthPx } from '@/lib/core/drawing/placing'
import { length, turn, unit } from '@/lib/core/drawing/vector'

const near = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 6))
const spot = (x: number, y: number, radius = 1): Taken => ({ at: [x, y], radius })
const band = (from: readonly [number, number], to: readonly [number, number], radius = 1): Taken => ({
  from,
  to,
  radius,
})

describe('how deep one thing lies in another', () => {
  it('is by how much two spots are closer than their radii together', () => {
    // 3-4-5: 5 apart, radii 4 and 3.
    expect(overlapPx([spot(0, 0, 4)], [spot(3, 4, 3)])).toBeCloseTo(2, 9)
    expect(overlapPx([spot(7, -1, 4)], [spot(4, 3, 3)])).toBeCloseTo(2, 9)
    expect(overlapPx([spot(0, 0, 2)], [spot(3, 4, 3)])).toBe(0)
    expect(overlapPx([spot(0, 0, 2)], [spot(3, 4, 2)])).toBe(0)
  })

  it.each([
    // A band from (10, 10) to (50, 40), direction (0.8, 0.6).
    { where: 'beside its middle', at: [30 - 0.6 * 4, 25 + 0.8 * 4] as const, off: 4 },
    { where: 'beside its first quarter', at: [20 + 0.6 * 3, 17.5 - 0.8 * 3] as const, off: 3 },
    { where: 'before its beginning', at: [7, 6] as const, off: 5 },
    { where: 'past its end', at: [53, 44] as const, off: 5 },
    { where: 'in line past its end', at: [54, 43] as const, off: 5 },
    { where: 'on it', at: [18, 16] as const, off: 0 },
  ])('is measured from a band’s nearest point: $where', ({ at, off }) => {
    const line = band([10, 10], [50, 40], 2)
    expect(overlapPx([{ at, radius: 5 }], [line])).toBeCloseTo(7 - off, 9)
    // Either way round.
    expect(overlapPx([line], [{ at, radius: 5 }])).toBeCloseTo(7 - off, 9)
  })

  it('between two bands is from the end that comes nearest', () => {
    // 3 apart over the middle; each in its turn the one whose end is near.
    const long = band([0, 0], [100, 0])
    for (const other of [
      band([50, 3], [50, 40]),
      band([50, 40], [50, 3]),
      band([-40, 0], [-3, 0]),
      band([103, 0], [140, 5]),
    ]) {
      expect(overlapPx([long], [{ ...other, radius: 4 }])).toBeCloseTo(2, 9)
      expect(overlapPx([{ ...other, radius: 4 }], [long])).toBeCloseTo(2, 9)
    }
  })

  it('of a band without length is as of a spot', () => {
    expect(overlapPx([spot(3, 4, 4)], [band([0, 0], [0, 0], 3)])).toBeCloseTo(2, 9)
  })

  it('adds up over all of them, and stops where it is as much as is asked for', () => {
    const taken = [spot(0, 0, 3), spot(1, 0, 3), spot(50, 0, 3)]
    // 1 + 3 - 0 = 4, 1 + 3 - 1 = 3, nothing of the third.
    expect(overlapPx([spot(0, 0, 1)], taken)).toBeCloseTo(7, 9)
    expect(overlapPx([spot(0, 0, 1), spot(50, 0, 1)], taken)).toBeCloseTo(11, 9)
    expect(overlapPx([spot(0, 0, 1), spot(50, 0, 1)], taken, 7)).toBeCloseTo(7, 9)
    expect(overlapPx([spot(0, 0, 1), spot(50, 0, 1)], taken, 7.5)).toBeCloseTo(11, 9)
    expect(overlapPx([], taken)).toBe(0)
  })
})

describe('the place taken for a label', () => {
  const taken = [spot(0, 0, 10)]
  const at = (x: number) => ({ x, spots: [spot(x, 0, 1)] })
  const choose = (xs: readonly number[]) => {
    const tried: number[] = []
    const best = bestPlace(
      xs,
      (x) => {
        tried.push(x)
        return at(x)
      },
      taken,
    )
    return { x: best.x, tried }
  }
  it('is the first that is free, and no other is tried after it', () => {
    expect(choose([5, 30, 40])).toEqual({ x: 30, tried: [5, 30] })
  })
  it('is the least covered where none is free, the earlier of two alike', () => {
    expect(choose([2, 7, 4]).x).toBe(7)
    expect(choose([2, 7, -7]).x).toBe(7)
    expect(choose([2, -7, 7]).x).toBe(-7)
    expect(choose([7, 8])).toEqual({ x: 8, tried: [7, 8] })
  })
  it('must be one of some', () => {
    expect(() => choose([])).toThrow(/at least one place/)
  })
})

describe('the room of a line of words', () => {
  it('is 0.6 of the size for each letter', () => {
    expect(textWidthPx('R 228.6', 10)).toBeCloseTo(42, 9)
    expect(textWidthPx('', 10)).toBe(0)
  })

  it('is spots of 0.62 of the size, no further apart than that, from end to end', () => {
    // 42 wide: 42 - 12.4 = 29.6 between the first and the last; 29.6 / 6.2 = 4.8, so five steps of 5.92.
    const spots = textSpots([100, 50], { widthPx: 42, sizePx: 10, angleRad: 0 })
    expect(spots).toEqual(
      [85.2, 91.12, 97.04, 102.96, 108.88, 114.8].map((x) => ({ at: near([x, 50]), radius: 6.2 })),
    )
  })

  it('turns with the words', () => {
    const [first, ...rest] = textSpots([100, 50], { widthPx: 42, sizePx: 10, angleRad: Math.PI / 6 })
    // 14.8 back along (cos 30, sin 30).
    expect(first).toMatchObject({ at: near([100 - 14.8 * 0.8660254038, 50 - 7.4]) })
    expect(rest.at(-1)).toMatchObject({ at: near([100 + 14.8 * 0.8660254038, 50 + 7.4]) })
  })

  it('of words shorter than they are high is two spots in one place', () => {
    expect(textSpots([3, 4], { widthPx: 6, sizePx: 10, angleRad: 1 })).toEqual(
      Array(2).fill({ at: [3, 4], radius: 6.2 }),
    )
  })
})

describe('words turned upright', () => {
  it('read from the foot or from the right: over -90 and up to below 90 degrees', () => {
    const turned = (deg: number) => (uprightRad((deg * Math.PI) / 180) * 180) / Math.PI
    for (const [deg, wanted] of [
      [0, 0],
      [30, 30],
      [89, 89],
      [90, -90],
      [91, -89],
      [180, 0],
      [-89, -89],
      [-90, -90],
      [-91, 89],
      [-180, 0],
      [270, -90],
      [400, 40],
      [-400, -40],
    ] as const)
      expect(turned(deg)).toBeCloseTo(wanted, 6)
  })
  it('lie along the same line as before', () => {
    fc.assert(
      fc.property(fc.double({ min: -20, max: 20, noNaN: true }), (angle) => {
        const upright = uprightRad(angle)
        expect(Math.sin(upright - angle)).toBeCloseTo(0, 9)
        expect(Math.cos(upright)).toBeGreaterThan(-2e-6)
      }),
    )
  })
})

describe('a box', () => {
  it('grows to hold each point with a margin round it', () => {
    const one = growBox(noBox, [3, 4])
    expect(one).toEqual({ left: 3, top: 4, right: 3, bottom: 4 })
    expect(growBox(one, [10, -5], 2)).toEqual({ left: 3, top: -7, right: 12, bottom: 4 })
    expect(growBox(one, [-10, 15], 2)).toEqual({ left: -12, top: 4, right: 3, bottom: 17 })
  })
})

describe('numbers on a drawing', () => {
  it('have no idle noughts, keep those of a whole number, and a true minus', () => {
    expect(
      ['420', '100.04', '0.06', '-12.5', '-0.04', '1000'].map((mm) => lengthText(Number(mm), 'mm')),
    ).toEqual(['420', '100', '0.1', '−12.5', '0', '1000'])
    expect(lengthText(100, 'mm', 0)).toBe('100')
    expect(lengthText(12.3456, 'mm', 2)).toBe('12.35')
    // 10 in; 0.5 mm is 0.0197 in, to a thousandth 0.02; to four places 0.0197.
    expect([lengthText(254, 'in'), lengthText(0.5, 'in'), lengthText(0.5, 'in', 2)]).toEqual([
      '10',
      '0.02',
      '0.0197',
    ])
  })
  it('give angles to a hundredth of a degree', () => {
    expect([90, 32.5, 12.345, -7.001].map(angleText)).toEqual(['90°', '32.5°', '12.35°', '−7°'])
  })
  it('make a scale bar 1, 2 or 5 of a power of ten, never longer than asked for', () => {
    for (const [about, wanted] of [
      [1, 1],
      [1.99, 1],
      [2, 2],
      [4.99, 2],
      [5, 5],
      [9.99, 5],
      [10, 10],
      [0.3, 0.2],
      [730, 500],
    ] as const) {
      expect(roundLengthMm(about, 'mm')).toBeCloseTo(wanted, 9)
      expect(roundLengthMm(about * 25.4, 'in')).toBeCloseTo(wanted * 25.4, 9)
    }
  })
})

describe('directions', () => {
  it('turn by the right-hand rule about any axis', () => {
    // A third of a turn about the diagonal of a cube sends x to y, y to z, z to x.
    const diagonal = unit([1, 1, 1])
    expect(turn([1, 2, 3], diagonal, (2 * Math.PI) / 3)).toEqual(near([3, 1, 2]))
    expect(turn([1, 0, 0], [0, 0, 1], Math.PI / 6)).toEqual(near([0.8660254038, 0.5, 0]))
    expect(turn([4, 5, 6], [0, 1, 0], Math.PI / 2)).toEqual(near([6, 5, -4]))
  })
  it('have the length 1, but for one without any', () => {
    expect(unit([2, 3, 6])).toEqual(near([2 / 7, 3 / 7, 6 / 7]))
    expect(length([2, 3, 6])).toBeCloseTo(7, 12)
    expect(unit([0, 0, 0])).toEqual([0, 0, 0])
  })
})
