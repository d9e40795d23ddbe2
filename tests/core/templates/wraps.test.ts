import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { boundsOf } from '@/lib/core/templates/primitive'
import { rectangularMitreCurve, rectangularMitreTemplate } from '@/lib/core/templates/rectangular-wrap'
import {
  mitreHeightMm,
  mitreWrapTemplate,
  saddleHeightMm,
  saddleWrapTemplate,
} from '@/lib/core/templates/round-wrap'

describe('mitre wrap of a round tube', () => {
  it('is one cosine of amplitude 100 over 628.319 mm for a pipe of radius 100 cut at 45 degrees', () => {
    // Source: unrolled plane section of a cylinder, a sine curve of amplitude r tan(a) and length 2 pi r (published worked example).
    const template = mitreWrapTemplate({ outsideRadiusMm: 100, cutAngleDeg: 45 })
    const curve = template.primitives.find((primitive) => primitive.kind === 'polyline')
    const points = curve?.kind === 'polyline' ? curve.points : []
    const heights = points.map(([, yMm]) => yMm)
    expect((points.at(-1)?.[0] ?? 0) - (points[0]?.[0] ?? 0)).toBeCloseTo(628.319, 3)
    expect(Math.max(...heights) - Math.min(...heights)).toBeCloseTo(200, 9)
  })

  it.each([
    [0, 24.15],
    [30, 20.9145],
    [60, 12.075],
    [90, 0],
  ])('stands at the hand-worked height at phi %d on a 48.3 mm tube cut at 45 degrees', (phiDeg, heightMm) => {
    // By hand: 24.15 * tan 45 * cos phi = 24.15 * (1, 0.8660254, 0.5, 0)
    expect(mitreHeightMm({ radiusMm: 24.15, cutAngleDeg: 45, phiDeg })).toBeCloseTo(heightMm, 4)
  })

  it('refuses a cut that runs along the tube', () => {
    expect(() => mitreHeightMm({ radiusMm: 20, cutAngleDeg: 90, phiDeg: 0 })).toThrow(RangeError)
  })
})

describe('saddle wrap of a round tube', () => {
  // Values worked from the generator put into the main cylinder's equation, tolerance 1e-4 mm.
  it.each([
    [90, 0, 0, 30.15],
    [90, 0, 45, 24.8478],
    [90, 0, 90, 18.0499],
    [90, 0, 135, 24.8478],
    [90, 0, 180, 30.15],
    [60, 0, 0, 48.7572],
    [60, 0, 45, 38.5509],
    [60, 0, 90, 20.8423],
    [60, 0, 135, 18.8325],
    [60, 0, 180, 20.8712],
    [60, 0, 270, 20.8423],
    [90, 5, 0, 29.7325],
    [90, 5, 45, 20.534],
    [90, 5, 90, 7.7006],
    [90, 5, 180, 29.7325],
    [90, 5, 270, 23.2873],
  ])(
    'at %d degrees, %d mm off, phi %d stands %d mm from the crossing',
    (axesAngleDeg, axisOffsetMm, phiDeg, heightMm) => {
      const joint = { branchRadiusMm: 24.15, mainRadiusMm: 30.15, axesAngleDeg, axisOffsetMm, phiDeg }
      expect(Math.abs(saddleHeightMm(joint) - heightMm)).toBeLessThan(1e-4)
    },
  )

  it.each([
    [0, 24.15],
    [45, 17.0766],
    [90, 0],
  ])('of two equal tubes at a right angle is r |cos phi| at phi %d', (phiDeg, heightMm) => {
    const joint = { branchRadiusMm: 24.15, mainRadiusMm: 24.15, axesAngleDeg: 90, phiDeg }
    expect(saddleHeightMm(joint)).toBeCloseTo(heightMm, 4)
  })

  it('puts every point of the curve on the main tube', () => {
    // Main along x; the branch's axis leans by th in the x-z plane and passes e off in y: y^2 + z^2 = Rm^2 there.
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 160, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: -5, max: 5, noNaN: true }),
        (axesAngleDeg, phiDeg, axisOffsetMm) => {
          const th = (axesAngleDeg * Math.PI) / 180
          const phi = (phiDeg * Math.PI) / 180
          const alongMm = saddleHeightMm({
            branchRadiusMm: 24.15,
            mainRadiusMm: 30.15,
            axesAngleDeg,
            axisOffsetMm,
            phiDeg,
          })
          const acrossMm = 24.15 * Math.sin(phi) + axisOffsetMm
          const upMm = alongMm * Math.sin(th) - 24.15 * Math.cos(phi) * Math.cos(th)
          expect(Math.hypot(acrossMm, upMm)).toBeCloseTo(30.15, 9)
        },
      ),
    )
  })

  it('refuses a branch that reaches past the side of the main tube', () => {
    expect(() =>
      saddleWrapTemplate({ branchRadiusMm: 30, mainRadiusMm: 30, axesAngleDeg: 90, axisOffsetMm: 2 }),
    ).toThrow(/past the side/)
  })
})

describe('mitre marks of a square tube', () => {
  it('runs round the whole girth of the rounded section', () => {
    // By hand: 4 (38.1 - 2 * 6.5) + 2 pi 6.5 = 100.4 + 40.8407 = 141.2407
    const curve = rectangularMitreCurve({
      widthMm: 38.1,
      heightMm: 38.1,
      cornerRadiusMm: 6.5,
      cutAngleDeg: 22.5,
    })
    expect(curve.at(-1)?.[0]).toBeCloseTo(141.2407, 4)
    expect(curve.at(-1)?.[1]).toBeCloseTo(curve[0]?.[1] ?? Number.NaN, 9)
  })

  it('stands h tan(a) higher on the long face than on the short one', () => {
    // By hand: 38.1 * tan 45 = 38.1
    const heights = rectangularMitreCurve({ widthMm: 38.1, heightMm: 38.1, cutAngleDeg: 45 }).map(
      ([, yMm]) => yMm,
    )
    expect(Math.max(...heights) - Math.min(...heights)).toBeCloseTo(38.1, 9)
  })

  it('reaches the long face at half the girth', () => {
    const curve = rectangularMitreCurve({ widthMm: 50, heightMm: 30, cornerRadiusMm: 4, cutAngleDeg: 30 })
    const girthMm = curve.at(-1)?.[0] ?? 0
    const longFace = curve
      .filter(([, yMm]) => Math.abs(yMm - 15 * Math.tan(Math.PI / 6)) < 1e-9)
      .map(([xMm]) => xMm)
    expect((Math.min(...longFace) + Math.max(...longFace)) / 2).toBeCloseTo(girthMm / 2, 9)
  })

  it('is drawn from the origin', () => {
    const { leftMm, bottomMm } = boundsOf(
      rectangularMitreTemplate({ widthMm: 38.1, heightMm: 38.1, cutAngleDeg: 30 }).primitives,
    )
    expect([leftMm, bottomMm]).toEqual([0, 0].map((zero) => expect.closeTo(zero, 9)))
  })

  it('refuses corners that do not fit the tube', () => {
    expect(() =>
      rectangularMitreCurve({ widthMm: 20, heightMm: 20, cornerRadiusMm: 11, cutAngleDeg: 30 }),
    ).toThrow(/corner radius/)
  })
})
