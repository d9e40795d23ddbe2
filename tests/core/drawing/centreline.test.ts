import { describe, expect, it } from 'vitest'
import { stationOn, walkCentreline } from '@/lib/core/drawing/centreline'
import type { DrawnPart } from '@/lib/core/drawing/part'

const tube = { shape: 'square', widthMm: 40, heightMm: 40 } as const

function endOf(part: DrawnPart) {
  const last = walkCentreline(part).at(-1)
  if (!last) throw new RangeError('no piece')
  return stationOn(last, 1)
}

describe('the centreline of a part', () => {
  it('runs along +x and turns its first bend toward +y', () => {
    // By hand: 100 straight, quarter circle of radius 50, 30 straight: x = 100 + 50, y = 50 + 30.
    const end = endOf({
      tube,
      bends: [{ straightBeforeMm: 100, angleDeg: 90, centrelineRadiusMm: 50, rotationDeg: 0 }],
      straightAfterMm: 30,
    })
    for (const [axis, wanted] of [150, 80, 0].entries()) expect(end.at[axis]).toBeCloseTo(wanted, 9)
    for (const [axis, wanted] of [0, 1, 0].entries()) expect(end.along[axis]).toBeCloseTo(wanted, 9)
  })

  it('turns the next bend by the right-hand rule about the tube: +90 after a quarter in the plane leaves toward +z', () => {
    // By hand: the first quarter leaves the tube on +y, its bend direction on -x. The right-hand rule about +y takes -x to +z.
    // After 100 + R50 at (150, 50, 0), 20 more in y, then a quarter of R50 toward +z: (150, 120, 50), then 10 in z.
    const end = endOf({
      tube,
      bends: [
        { straightBeforeMm: 100, angleDeg: 90, centrelineRadiusMm: 50, rotationDeg: 0 },
        { straightBeforeMm: 20, angleDeg: 90, centrelineRadiusMm: 50, rotationDeg: 90 },
      ],
      straightAfterMm: 10,
    })
    for (const [axis, wanted] of [150, 120, 60].entries()) expect(end.at[axis]).toBeCloseTo(wanted, 9)
  })

  it('carries the section without twist: turning the bend plane does not turn the tube', () => {
    const end = endOf({
      tube,
      bends: [{ straightBeforeMm: 10, angleDeg: 30, centrelineRadiusMm: 90, rotationDeg: 90 }],
      straightAfterMm: 0,
    })
    // Turned 90 degrees the bend goes toward +z about the axis -y, which the tube's height lies along.
    for (const [axis, wanted] of [0, 1, 0].entries()) expect(end.up[axis]).toBeCloseTo(wanted, 9)
  })

  it('comes back beside its start when two half turns of one radius make a U', () => {
    const end = endOf({
      tube,
      bends: [
        { straightBeforeMm: 0, angleDeg: 90, centrelineRadiusMm: 80, rotationDeg: 0 },
        { straightBeforeMm: 0, angleDeg: 90, centrelineRadiusMm: 80, rotationDeg: 0 },
      ],
      straightAfterMm: 0,
    })
    for (const [axis, wanted] of [0, 160, 0].entries()) expect(end.at[axis]).toBeCloseTo(wanted, 9)
  })
})
