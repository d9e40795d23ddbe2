import { describe, expect, it } from 'vitest'
import { FillerMoment } from '@/lib/core/mechanics/filler-moment'
import { strapCapacityN, strapModulusMPa, strapMomentNmm } from '@/lib/core/mechanics/yielding-strip'

/** A solid rectangle, as the filler in the bore of an almost wall-less tube. */
const bar = (widthMm: number, heightMm: number, filler: { modulusMPa: number; yieldMPa: number }) =>
  new FillerMoment(
    {
      shape: 'rectangular',
      widthMm: widthMm + 2e-6,
      heightMm: heightMm + 2e-6,
      wallMm: 1e-6,
      cornerRadiusMm: 0,
    },
    filler,
  )

describe('the elastic-perfectly-plastic rectangle', () => {
  const steel = { modulusMPa: 200_000, yieldMPa: 240 }

  it('is M = My (1.5 - 0.5 (ky/k)^2)', () => {
    // Closed form of any text on plasticity; ratios M/My at k/ky = 1, 1.5, 2, 3, 5, 10.
    const yieldCurvature = (2 * 240) / (200_000 * 120)
    const yieldMoment = (240 * 50 * 120 ** 2) / 6
    for (const [ratio, moment] of [
      [1, 1],
      [1.5, 1.27778],
      [2, 1.375],
      [3, 1.44444],
      [5, 1.48],
      [10, 1.495],
    ] as const) {
      expect(bar(50, 120, steel).at(ratio * yieldCurvature) / yieldMoment).toBeCloseTo(moment, 5)
    }
  })

  it('is Beer & Johnston’s bar of 50 x 120 mm: 36.8 kN·m at a radius of 33.3 m', () => {
    // Beer & Johnston, Mechanics of Materials, Examples 4.5/4.6 (from memory): E 200 GPa, sy 240 MPa, core 80 mm, rho 33.3 m.
    expect(bar(50, 120, steel).at(1 / 33_333.33) / 1e6).toBeCloseTo(36.8, 3)
  })
})

describe('the strap', () => {
  const strap = { thicknessMm: 3, widthMm: 40, yieldMPa: 250, frictionCoeff: 0.15 }

  it('carries its fully plastic moment ws ts^2 Fys / 4 when bent far without a pull', () => {
    // By hand: 40 * 9 * 250 / 4 = 22 500 N·mm.
    expect(strapMomentNmm(strap, 1 / 100, 0)).toBeCloseTo(22_500, -2)
  })

  it('loses moment to a pull as 1 - (T / (As Fys))^2', () => {
    // Interaction of a rectangle, e.g. Horne, Plastic Theory of Structures; half the capacity leaves three quarters.
    const half = strapCapacityN(strap) / 2
    expect(strapMomentNmm(strap, 1 / 50, half) / strapMomentNmm(strap, 1 / 50, 0)).toBeCloseTo(0.75, 2)
  })

  it('carries no moment when the pull takes its whole section', () => {
    expect(strapMomentNmm(strap, 1 / 100, strapCapacityN(strap))).toBe(0)
    // As near as a search for that tension comes; a millionth less still carries some.
    expect(strapMomentNmm(strap, 1 / 100, strapCapacityN(strap) * (1 - 1e-12))).toBe(0)
    expect(strapMomentNmm(strap, 1 / 100, strapCapacityN(strap) * (1 - 1e-6))).toBeGreaterThan(0)
  })

  it('is elastic, E I k, when hardly bent', () => {
    // By hand: I = 40 * 27 / 12 = 90 mm4.
    const curvature = 1e-5
    expect(strapMomentNmm(strap, curvature, 0) / (strapModulusMPa * 90 * curvature)).toBeCloseTo(1, 6)
  })

  it('joins its fully plastic form without a step where one side stops yielding', () => {
    const pull = 0.6 * strapCapacityN(strap)
    const edge = strap.yieldMPa / (strapModulusMPa * (1.5 - 0.6 * 1.5))
    const below = strapMomentNmm(strap, edge * 0.9999, pull)
    const above = strapMomentNmm(strap, edge * 1.0001, pull)
    expect(above / below).toBeCloseTo(1, 3)
  })
})
