import { describe, expect, it } from 'vitest'
import { offsetCurve, pressShape } from '@/lib/core/drawing/press-set-up'

const near = (at: readonly number[] | undefined) => at?.map((mm) => expect.closeTo(mm, 3))
/** R 130 + 20 = 150 on the die, 20 + 25 = 45 from centreline to nose, half the wrapped angle 30 degrees. */
const setUp = { heightMm: 40, spanMm: 300, noseRadiusMm: 25, dieSurfaceRadiusMm: 130, wrappedAngleDeg: 60 }

describe('the tube on the press at 30 degrees to each side', () => {
  it('is free for (150 - 195 sin 30) / cos 30 and stands down by 195 (1 - cos 30) and half of that', () => {
    const shape = pressShape(setUp)
    // 52.5 / 0.8660254 = 60.6218; 26.1250 + 30.3109 = 56.4359.
    expect(shape?.freeLengthMm).toBeCloseTo(60.6218, 4)
    expect(shape?.travelMm).toBeCloseTo(56.4359, 4)
    expect(shape?.halfAngleRad).toBeCloseTo(Math.PI / 6, 12)
    expect(shape?.dieCentre).toEqual(near([0, 93.5641]))
  })

  it('rests on noses half a span out, a nose and half a tube under the straight centreline', () => {
    expect(pressShape(setUp)?.noses).toEqual([
      [-150, -45],
      [150, -45],
    ])
    expect(pressShape({ ...setUp, strapThicknessMm: 3 })?.noses[0]).toEqual([-150, -48])
  })

  it('is an arc of 33 places between two straight arms', () => {
    const line = pressShape(setUp)?.centreline ?? []
    expect(line).toHaveLength(35)
    // Contact ends 150 sin 30 out, at 93.5641 - 150 cos 30; the arm is 60.6218 and 48 long.
    expect(line[1]).toEqual(near([-75, -36.3397]))
    expect(line[17]).toEqual(near([0, -56.4359]))
    expect(line[33]).toEqual(near([75, -36.3397]))
    expect(line[34]).toEqual(near([169.0692, 17.9712]))
    expect(line[0]).toEqual(near([-169.0692, 17.9712]))
    // Half way along one side: 15 degrees, 150 sin 15 and 93.5641 - 150 cos 15.
    expect(line[25]).toEqual(near([38.8229, -51.3248]))
  })

  it('reaches past its supports by 1.2 of its height, or 0.06 of the span where that is more', () => {
    expect(pressShape(setUp)?.overhangMm).toBeCloseTo(48, 9)
    expect(pressShape({ ...setUp, spanMm: 1000 })?.overhangMm).toBeCloseTo(60, 9)
  })

  it('has no shape once the span leaves no arm: 195 with its bend of 195 sin 30 to each side', () => {
    expect(pressShape({ ...setUp, spanMm: 194.9 })).toBeNull()
    expect(pressShape({ ...setUp, spanMm: 195.1 })?.freeLengthMm).toBeCloseTo(0.0577, 3)
  })

  it('has no shape while any number is missing, or without an angle', () => {
    for (const name of [
      'heightMm',
      'spanMm',
      'noseRadiusMm',
      'dieSurfaceRadiusMm',
      'wrappedAngleDeg',
    ] as const)
      for (const value of [Number.NaN, Number.POSITIVE_INFINITY])
        expect(pressShape({ ...setUp, [name]: value })).toBeNull()
    for (const wrappedAngleDeg of [0, -10, 180, 181, 400])
      expect(pressShape({ ...setUp, wrappedAngleDeg })).toBeNull()
    expect(pressShape({ ...setUp, wrappedAngleDeg: 0.1 })).not.toBeNull()
  })
})

describe('a line moved to its left', () => {
  it('at a corner goes square to the line between the neighbours', () => {
    // Neighbours (0, 0) and (8, 6): along (0.8, 0.6), left (-0.6, 0.8).
    expect(
      offsetCurve(
        [
          [0, 0],
          [5, 2],
          [8, 6],
        ],
        10,
      )[1],
    ).toEqual(near([5 - 6, 2 + 8]))
    // At its ends square to its first and last piece: (3, 4) / 5.
    expect(
      offsetCurve(
        [
          [0, 0],
          [3, 4],
          [9, 4],
        ],
        10,
      )[0],
    ).toEqual(near([-8, 6]))
    expect(
      offsetCurve(
        [
          [0, 0],
          [3, 4],
          [9, 4],
        ],
        -10,
      )[2],
    ).toEqual(near([9, -6]))
  })
  it('stays where two places are one', () => {
    expect(
      offsetCurve(
        [
          [2, 3],
          [2, 3],
        ],
        10,
      ),
    ).toEqual([near([2, 3]), near([2, 3])])
  })
})
