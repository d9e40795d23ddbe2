import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  bendsFromPoints,
  endShiftMm,
  intersectionPoints,
  type Point,
  setbackMm,
} from '@/lib/core/geometry/centreline'

/** A part worked out by hand in the convention of the bend table: first rotation 0, right-handed about the feed direction. */
const points: Point[] = [
  [0, 0, 0],
  [200, 0, 0],
  [350, 150, 0],
  [350, 300, 150],
  [500, 300, 250],
]
const bends = [
  { straightBeforeMm: 179.289322, rotationDeg: 0, angleDeg: 45, centrelineRadiusMm: 50 },
  { straightBeforeMm: 162.553843, rotationDeg: 54.73561, angleDeg: 60, centrelineRadiusMm: 50 },
  { straightBeforeMm: 150.228862, rotationDeg: 119.496208, angleDeg: 66.906531, centrelineRadiusMm: 50 },
]

describe('points and bends', () => {
  it('turn the worked example’s points into its bend table', () => {
    // By unit vectors: cos of the second angle is 1/2, of its rotation 1 / sqrt(3).
    const found = bendsFromPoints(points, [50, 50, 50])
    expect(found.straightAfterMm).toBeCloseTo(147.241905, 6)
    for (const [index, bend] of bends.entries()) {
      expect(found.bends[index]?.straightBeforeMm).toBeCloseTo(bend.straightBeforeMm, 6)
      expect(found.bends[index]?.rotationDeg).toBeCloseTo(bend.rotationDeg, 6)
      expect(found.bends[index]?.angleDeg).toBeCloseTo(bend.angleDeg, 6)
    }
  })

  it('turn the bend table back into the points', () => {
    for (const [index, point] of intersectionPoints(bends, 147.241905).entries())
      for (const axis of [0, 1, 2] as const)
        expect(point[axis]).toBeCloseTo(points[index]?.[axis] ?? Number.NaN, 5)
  })

  it('go round and come back', () => {
    const bend = fc.record({
      straightBeforeMm: fc.double({ min: 1, max: 500, noNaN: true }),
      angleDeg: fc.double({ min: 1, max: 150, noNaN: true }),
      centrelineRadiusMm: fc.double({ min: 20, max: 300, noNaN: true }),
      rotationDeg: fc.double({ min: -179, max: 179, noNaN: true }),
    })
    fc.assert(
      fc.property(
        fc.array(bend, { minLength: 1, maxLength: 8 }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (drawn, after) => {
          const first = drawn.map((one, index) => (index === 0 ? { ...one, rotationDeg: 0 } : one))
          const found = bendsFromPoints(
            intersectionPoints(first, after),
            first.map((one) => one.centrelineRadiusMm),
          )
          expect(found.straightAfterMm).toBeCloseTo(after, 5)
          for (const [index, one] of first.entries()) {
            expect(found.bends[index]?.angleDeg).toBeCloseTo(one.angleDeg, 5)
            expect(found.bends[index]?.rotationDeg).toBeCloseTo(one.rotationDeg, 4)
            expect(found.bends[index]?.straightBeforeMm).toBeCloseTo(one.straightBeforeMm, 4)
          }
        },
      ),
    )
  })

  it('set the corner back R tan(angle / 2): 150 at 90 degrees, 26.795 of 100 at 30', () => {
    expect(setbackMm({ angleDeg: 90, centrelineRadiusMm: 150 })).toBeCloseTo(150, 9)
    expect(setbackMm({ angleDeg: 30, centrelineRadiusMm: 100 })).toBeCloseTo(26.795, 3)
  })

  it('draw an S in one plane with a rotation of 180 and a U with 0', () => {
    const one = { straightBeforeMm: 100, angleDeg: 90, centrelineRadiusMm: 50, rotationDeg: 0 }
    const end = (rotationDeg: number) => intersectionPoints([one, { ...one, rotationDeg }], 100).at(-1)
    // Corners 150 and 200 apart: the S ends 300 on and 200 up, the U comes back to x = 0.
    expect(end(180)?.map((value) => Math.round(value * 1e6) / 1e6)).toEqual([300, 200, 0])
    expect(end(0)?.map((value) => Math.round(value * 1e6) / 1e6)).toEqual([0, 200, 0])
  })

  it('are refused where a point does not turn the line, and where bends overlap', () => {
    expect(() =>
      bendsFromPoints(
        [
          [0, 0, 0],
          [100, 0, 0],
          [200, 0, 0],
        ],
        [50],
      ),
    ).toThrow(RangeError)
    expect(() =>
      bendsFromPoints(
        [
          [0, 0, 0],
          [100, 0, 0],
          [100, 20, 0],
          [200, 20, 0],
        ],
        [50, 50],
      ),
    ).toThrow(/overlap/)
  })
})

describe('the shift of the part’s end', () => {
  it('by one degree more at a bend is the distance beyond it times the angle', () => {
    // Straight of 1000 after a corner: chord 2 · 1000 · sin(0.5 degrees) = 17.453 to first order; the setback moves it a little.
    const drawn = [{ straightBeforeMm: 500, angleDeg: 40, centrelineRadiusMm: 1, rotationDeg: 0 }]
    const made = [{ straightBeforeMm: 500, angleDeg: 41, centrelineRadiusMm: 1, rotationDeg: 0 }]
    expect(endShiftMm(drawn, made, 1000)).toBeCloseTo(17.45, 1)
  })
})
