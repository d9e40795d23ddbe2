import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  hardeningExponent,
  StressCurve,
  strainAtStress,
  type TubeMaterial,
  uniformStrain,
} from '@/lib/core/mechanics/material-curve'

const aluminium = (yieldMPa: number, tensileMPa: number): TubeMaterial => ({
  family: 'aluminium',
  elasticModulusMPa: 70_000,
  yieldMPa,
  tensileMPa,
  elongationPct: 8,
  poisson: 0.3,
  densityKgM3: 2700,
})

describe('the hardening exponent', () => {
  // EN 1999-1-1:2007 Table 3.2b, column n_p, against its Annex E formula; the table rounds to whole numbers.
  it.each([
    ['6060-T5', 120, 160, 17],
    ['6060-T6', 140, 170, 24],
    ['6060-T66', 160, 215, 16],
    ['6061-T6', 240, 260, 55],
    ['6063-T5 to 3 mm', 130, 175, 16],
    ['6063-T5 above 3 mm', 110, 160, 13],
    ['6063-T6', 160, 195, 24],
    ['6063-T6 drawn', 190, 220, 31],
    ['6063-T66', 200, 245, 22],
    ['6005A-T6', 225, 270, 25],
    ['5083-O', 110, 270, 5],
  ] as const)('of %s is the one EN 1999-1-1 lists', (_name, yieldMPa, tensileMPa, listed) => {
    expect(Math.abs(hardeningExponent(aluminium(yieldMPa, tensileMPa)) - listed)).toBeLessThan(0.75)
  })

  it('is taken as 1 where the formula gives less', () => {
    expect(hardeningExponent({ ...aluminium(100, 100_000), uniformStrain: 0.01 })).toBe(1)
  })

  it('is refused where the tensile strength is not above the yield', () => {
    expect(() => hardeningExponent(aluminium(200, 200))).toThrow(RangeError)
  })
})

describe('the uniform strain where none is given', () => {
  it('is the one of EN 1999-1-1 Annex E for aluminium: 0.30 - 0.22 fo/400, 0.08 from 400 MPa', () => {
    // By hand: 0.30 - 0.22 * 240 / 400 = 0.168.
    expect(uniformStrain(aluminium(240, 260))).toBeCloseTo(0.168, 12)
    expect(uniformStrain(aluminium(400, 450))).toBe(0.08)
  })

  it('is half the elongation for other metals, and never under 0.01', () => {
    // Common practice, no source.
    const steel = { ...aluminium(350, 450), family: 'steel' as const, elongationPct: 20 }
    expect(uniformStrain(steel)).toBeCloseTo(0.1, 12)
    expect(uniformStrain({ ...steel, elongationPct: 1 })).toBe(0.01)
    expect(uniformStrain({ ...steel, uniformStrain: 0.002 })).toBe(0.01)
  })
})

describe('stress and strain', () => {
  it('meet the points worked by hand from s/E + 0.002 (s/fo)^n', () => {
    // 6063-T5 at its proof stress: 130/70000 + 0.002 = 0.0038571, whatever n.
    expect(strainAtStress(130, aluminium(130, 175))).toBeCloseTo(0.0038571, 7)
    // 6063-T5 at 150 MPa with n = 16: 150/70000 + 0.002 (150/130)^16 = 0.0218851.
    expect(strainAtStress(150, aluminium(130, 175), 16)).toBeCloseTo(0.0218851, 6)
    // 6061-T6 at 250 MPa with n = 55: 0.0224563.
    expect(strainAtStress(250, aluminium(240, 260), 55)).toBeCloseTo(0.0224563, 6)
  })

  it('give the strain back when the stress is turned into strain again', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 40, max: 900, noNaN: true }),
        fc.double({ min: 1.02, max: 2.5, noNaN: true }),
        fc.double({ min: -0.4, max: 0.4, noNaN: true }),
        (yieldMPa, ratio, strain) => {
          const material = aluminium(yieldMPa, yieldMPa * ratio)
          const curve = new StressCurve(material)
          const back = strainAtStress(curve.stressMPa(strain), material, curve.exponent)
          expect(Math.abs(back - strain)).toBeLessThanOrEqual(2e-4 * Math.abs(strain) + 1e-12)
        },
      ),
      { numRuns: 200 },
    )
  })

  it('are odd: squeezed as stretched', () => {
    const curve = new StressCurve(aluminium(240, 260))
    for (const strain of [1e-5, 0.003, 0.02, 0.2])
      expect(curve.stressMPa(-strain)).toBe(-curve.stressMPa(strain))
  })

  it('have closed integrals that fine trapezoids agree with', () => {
    const curve = new StressCurve(aluminium(240, 260))
    const strain = 0.08
    const steps = 200_000
    let force = 0
    let moment = 0
    for (let i = 0; i < steps; i++) {
      const middle = ((i + 0.5) * strain) / steps
      const stress = curve.stressMPa(middle)
      force += (stress * strain) / steps
      moment += (stress * middle * strain) / steps
    }
    expect(curve.integrals(strain).force / force).toBeCloseTo(1, 5)
    expect(curve.integrals(strain).moment / moment).toBeCloseTo(1, 5)
  })
})
