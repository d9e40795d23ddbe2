import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  celsiusFromFahrenheit,
  degFromRad,
  fahrenheitFromCelsius,
  KG_M3_PER_POUND_PER_CUBIC_INCH,
  KG_PER_POUND,
  kilonewtonFromPoundForce,
  ksiFromMpa,
  LITRE_PER_US_GALLON,
  MM_PER_FOOT,
  MM_PER_INCH,
  MPA_PER_KSI,
  mpaFromKsi,
  NEWTON_PER_KIP,
  NEWTON_PER_POUND_FORCE,
  pressTons,
  radFromDeg,
  STANDARD_GRAVITY_M_PER_S2,
} from '@/lib/core/units'

// NIST SP 811 (2008) Appendix B.8, factors in bold are exact.
describe('unit factors', () => {
  it('holds the exact inch, foot, pound and standard gravity of NIST SP 811', () => {
    expect([MM_PER_INCH, MM_PER_FOOT, KG_PER_POUND, STANDARD_GRAVITY_M_PER_S2]).toEqual([
      25.4, 304.8, 0.45359237, 9.80665,
    ])
  })
  it('makes the pound-force out of pound and gravity exactly', () => {
    expect(NEWTON_PER_POUND_FORCE).toBeCloseTo(0.45359237 * 9.80665, 15)
    expect(NEWTON_PER_KIP).toBe(4448.2216152605)
  })
  it('matches the seven-digit factors printed in NIST SP 811: ksi 6.894757 MPa, ton-force 8.896443 kN', () => {
    expect(MPA_PER_KSI.toPrecision(7)).toBe('6.894757')
    expect(pressTons.usShort.kilonewtons.toPrecision(7)).toBe('8.896443')
  })
  it('makes a US gallon 231 cubic inches', () => {
    expect(LITRE_PER_US_GALLON).toBeCloseTo((231 * 25.4 ** 3) / 1e6, 12)
  })
  it('makes a pound per cubic inch 27 679.90 kg/m³, as NIST SP 811 prints it', () => {
    expect(KG_M3_PER_POUND_PER_CUBIC_INCH).toBeCloseTo(27679.9, 1)
  })
  it('turns 158 F into 70 C, 36 ksi into 248.211 MPa and 20 000 lbf into 88.9644 kN', () => {
    expect(celsiusFromFahrenheit(158)).toBe(70)
    expect(mpaFromKsi(36)).toBeCloseTo(248.211, 3)
    expect(kilonewtonFromPoundForce(20_000)).toBeCloseTo(88.9644, 4)
  })
  it('keeps the three press tons 8.896, 9.807 and 9.964 kN apart, 12 percent from the least to the most', () => {
    expect(pressTons.metric.kilonewtons).toBe(9.80665)
    expect(pressTons.long.kilonewtons).toBeCloseTo(9.964, 3)
    expect(pressTons.long.kilonewtons / pressTons.usShort.kilonewtons).toBeCloseTo(1.12, 12)
  })
  it('comes back to where it started through every pair of conversions', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
        const slack = 1e-9 * Math.max(1, Math.abs(value))
        expect(Math.abs(celsiusFromFahrenheit(fahrenheitFromCelsius(value)) - value)).toBeLessThan(slack)
        expect(Math.abs(ksiFromMpa(mpaFromKsi(value)) - value)).toBeLessThan(slack)
        expect(Math.abs(degFromRad(radFromDeg(value)) - value)).toBeLessThan(slack)
      }),
    )
  })
})
