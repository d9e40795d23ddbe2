import { describe, expect, it } from 'vitest'
import { alloys } from '@/lib/core/materials/alloys'
import { outsideToleranceMm } from '@/lib/core/materials/outside-tolerance'
import { thinnestWallMm, wallToleranceMm } from '@/lib/core/materials/tube-tolerance'
import { gaugeOfWall, gaugeWallMm, nextThickerGauge, nextThinnerGauge } from '@/lib/core/materials/wall-gauge'

const round = (outsideIn: number, wallIn: number) => ({
  shape: 'round' as const,
  outsideMm: outsideIn * 25.4,
  wallMm: wallIn * 25.4,
})
const square = (outsideIn: number, wallIn: number) => ({
  ...round(outsideIn, wallIn),
  shape: 'square' as const,
})

describe('wall tolerance', () => {
  it('leaves 0.047 in of a 1.5 x 0.065 in extruded tube, 28 percent under (ANSI H35.2, mean and eccentricity stacked)', () => {
    // By hand: 0.065 - 0.008 - 0.010 = 0.047 in.
    expect(thinnestWallMm(round(1.5, 0.065), 'h35.2-extruded') / 25.4).toBeCloseTo(0.047, 6)
  })
  it('leaves 0.1044 in of a 2.0 x 0.125 in extruded tube, 16 percent under (ANSI H35.2, 10 percent of the mean wall)', () => {
    // By hand: mean 0.125 - 0.009 = 0.116 in, less a tenth of it: 0.1044 in.
    expect(thinnestWallMm(round(2, 0.125), 'h35.2-extruded') / 25.4).toBeCloseTo(0.1044, 6)
  })
  it('holds drawn-over-mandrel tube to +0.002/-0.003 in at 0.065 in and +0.002/-0.004 at 0.120 in (ASTM A513 type 5)', () => {
    const thin = wallToleranceMm(round(1.5, 0.065), 'a513-5')
    expect([thin.minusMm / 25.4, thin.plusMm / 25.4]).toEqual([
      expect.closeTo(0.003, 9),
      expect.closeTo(0.002, 9),
    ])
    const thick = wallToleranceMm(round(2, 0.12), 'a513-5')
    expect([thick.minusMm / 25.4, thick.plusMm / 25.4]).toEqual([
      expect.closeTo(0.004, 9),
      expect.closeTo(0.002, 9),
    ])
  })
  it('says so where a row of the standard was not seen', () => {
    expect(wallToleranceMm(round(1, 0.12), 'a513-5')).toMatchObject({
      status: 'memory',
      source: expect.stringContaining('not seen'),
    })
  })
  it('is 10 percent in A500 and A554, and 0.5 mm over 5 mm wall in EN 10219-2', () => {
    const tube = { shape: 'square' as const, outsideMm: 100, wallMm: 4 }
    expect(wallToleranceMm(tube, 'a500').minusMm).toBeCloseTo(0.4, 9)
    expect(wallToleranceMm(tube, 'a554').minusMm).toBeCloseTo(0.4, 9)
    expect(wallToleranceMm({ ...tube, wallMm: 8 }, 'en10219').minusMm).toBe(0.5)
    expect(wallToleranceMm(tube, 'en10219').minusMm).toBeCloseTo(0.4, 9)
  })
  it('answers for the standard of every alloy in the table, in the wall and the outside', () => {
    for (const alloy of alloys) {
      for (const tube of [round(1.5, 0.065), square(1.5, 0.065)]) {
        expect(wallToleranceMm(tube, alloy.tubeTolerance).minusMm, alloy.id).toBeGreaterThan(0)
        expect(outsideToleranceMm(tube, alloy.tubeTolerance).plusMm, alloy.id).toBeGreaterThan(0)
      }
    }
  })
  it('refuses a tube without a bore', () => {
    expect(() => wallToleranceMm(round(1, 0.5), 'a500')).toThrow(RangeError)
  })
})

describe('outside tolerance', () => {
  it.each([
    ['h35.2-extruded', round(0.75, 0.065), 0.02, 0.02],
    ['h35.2-extruded', round(1.5, 0.065), 0.025, 0.025],
    ['h35.2-extruded', round(2, 0.125), 0.03, 0.03],
    ['h35.2-extruded', square(1.5, 0.125), 0.018, 0.018],
    ['a513-5', round(1.5, 0.065), 0, 0.005],
    ['a513-5', round(2, 0.12), 0, 0.006],
    ['a513-1', round(1.5, 0.065), 0.005, 0.005],
    ['a500', square(2, 0.12), 0.02, 0.02],
    ['a500', square(3, 0.12), 0.025, 0.025],
    ['a500', round(1.9, 0.12), 0.0095, 0.0095],
    ['a500', round(4, 0.12), 0.03, 0.03],
    ['a269', round(1, 0.065), 0.005, 0.005],
    ['a269', round(2, 0.065), 0.01, 0.01],
  ] as const)('of %s is as its table prints it', (standard, tube, minusIn, plusIn) => {
    const tolerance = outsideToleranceMm(tube, standard)
    expect(tolerance.minusMm / 25.4).toBeCloseTo(minusIn, 9)
    expect(tolerance.plusMm / 25.4).toBeCloseTo(plusIn, 9)
  })
  it('of EN 10219-2 round tube is 1 percent, no less than 0.5 mm', () => {
    expect(outsideToleranceMm({ shape: 'round', outsideMm: 33.7, wallMm: 3 }, 'en10219').plusMm).toBe(0.5)
    expect(outsideToleranceMm({ shape: 'round', outsideMm: 114.3, wallMm: 3 }, 'en10219').plusMm).toBeCloseTo(
      1.143,
      9,
    )
  })
})

describe('wall gauges', () => {
  it.each([
    // Birmingham Wire Gauge, two published tables agree.
    [18, 1.2446],
    [16, 1.651],
    [14, 2.1082],
    [11, 3.048],
    [7, 4.572],
  ])('makes %d gauge %d mm', (gauge, wallMm) => {
    expect(gaugeWallMm(gauge)).toBeCloseTo(wallMm, 6)
    expect(gaugeOfWall(wallMm)).toBe(gauge)
  })
  it('goes one gauge up and down, and to the nearer gauge from a wall between two', () => {
    expect(nextThickerGauge(1.651)?.gauge).toBe(15)
    expect(nextThinnerGauge(1.651)?.gauge).toBe(17)
    expect(nextThickerGauge(1.7)?.gauge).toBe(15)
    expect(nextThinnerGauge(1.7)?.gauge).toBe(16)
  })
  it('has nothing above its thickest or below its thinnest wall, and no 27 gauge', () => {
    expect(nextThickerGauge(4.572)).toBeUndefined()
    expect(nextThinnerGauge(0.3048)).toBeUndefined()
    expect(gaugeWallMm(27)).toBeUndefined()
    expect(gaugeOfWall(2)).toBeUndefined()
  })
})
