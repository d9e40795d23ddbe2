import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { balanceAlone } from '@/lib/core/mechanics/balance'
import { BentTube } from '@/lib/core/mechanics/bent-tube'
import { leverAt, ramForceN, ramTravelMm, workingSpanMm } from '@/lib/core/mechanics/press'
import { stroke, travelsMm } from '@/lib/core/mechanics/stroke'

const alloy = {
  family: 'aluminium' as const,
  elasticModulusMPa: 70_000,
  yieldMPa: 150,
  tensileMPa: 240,
  elongationPct: 16,
  poisson: 0.33,
  densityKgM3: 2700,
}
const tube = { shape: 'square' as const, widthMm: 40, heightMm: 40, wallMm: 3, cornerRadiusMm: 0 }
const bent = new BentTube(tube, alloy, { kind: 'hollow' }, null)
const press = (supportSpanMm: number, supportFrictionCoeff = 0) => ({
  supportSpanMm,
  supportNoseRadiusMm: 25,
  supportFrictionCoeff,
})
const radians = (angleDeg: number) => (angleDeg * Math.PI) / 180

describe('the ram’s travel', () => {
  // Half span 150, die surface radius 130, tube 40 high, noses of 25: by drawing the circles and their common tangents, and by
  // d = a tan(phi) - S (1 / cos(phi) - 1) with S = 195; the two agree to 1e-12.
  it.each([
    [20, 23.441],
    [40, 42.081],
    [60, 56.436],
    [90, 69.228],
  ])('to %f degrees on the die is %f mm', (angleDeg, travelMm) => {
    const phi = radians(angleDeg / 2)
    expect(ramTravelMm(leverAt(bent, press(300), 150, phi), 150, phi, 0)).toBeCloseTo(travelMm, 3)
  })

  it('ends where the free length is used up: 17.13 mm at 90 degrees, nothing at 100.57', () => {
    expect(leverAt(bent, press(300), 150, radians(45)).freeMm).toBeCloseTo(17.13, 2)
    expect(leverAt(bent, press(300), 150, radians(100.57 / 2)).freeMm).toBeCloseTo(0, 1)
  })

  it('grows with the angle by s / cos(phi)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.7, noNaN: true }), (phi) => {
        const at = (angle: number) => ramTravelMm(leverAt(bent, press(320), 150, angle), 150, angle, 0)
        const slope = (at(phi + 1e-5) - at(phi - 1e-5)) / 2e-5
        expect(slope).toBeCloseTo(leverAt(bent, press(320), 150, phi).freeMm / Math.cos(phi), 4)
      }),
    )
  })
})

describe('the ram’s travel along the stroke', () => {
  it('begins, while the tube is elastic, with the deflection P L^3 / (48 E I) of a beam on two supports', () => {
    // At a radius of 40 000 mm the outside carries 70 000 * 20 / 40 000 = 35 MPa, far under the yield of 150.
    // I = (40^4 - 34^4) / 12 = 101 972 mm4; M = E I / R = 178 451 N·mm; P = 4 M / L with L = 600.
    const full = balanceAlone(bent, 40_000)
    const points = stroke(bent, press(600), 40_000, 0.001, full).points(41)
    const forceN = (4 * 178_451) / 600
    const deflectionMm = (forceN * 600 ** 3) / (48 * 70_000 * 101_972)
    expect(points[0]?.forceN).toBeCloseTo(forceN, 1)
    expect(travelsMm(bent, press(600), 40_000, points)[0]).toBeCloseTo(deflectionMm, 4)
  })

  it('grows at every step, a strap’s pull in it or not', () => {
    const strap = { thicknessMm: 3, widthMm: 40, yieldMPa: 250, frictionCoeff: 0.2 }
    for (const backed of [bent, new BentTube(tube, alloy, { kind: 'hollow' }, strap)]) {
      const points = stroke(backed, press(400, 0.15), 150, radians(40), balanceAlone(backed, 150)).points(41)
      const travels = travelsMm(backed, press(400, 0.15), 150, points)
      expect(travels.length).toBe(points.length)
      expect(travels.every((travel, index) => index === 0 || travel > (travels[index - 1] ?? 0))).toBe(true)
    }
  })
})

describe('the ram’s work', () => {
  it('without friction is the plastic work 2 M phi', () => {
    const moment = balanceAlone(bent, 150).externalMomentNmm
    const count = 4000
    const most = radians(35)
    let work = 0
    for (let index = 0; index < count; index++) {
      const [from, to] = [(most * index) / count, (most * (index + 1)) / count]
      const at = (phi: number) => ramTravelMm(leverAt(bent, press(320), 150, phi), 150, phi, 0)
      const middle = (from + to) / 2
      work +=
        ramForceN(leverAt(bent, press(320), 150, middle), press(320), middle, moment) * (at(to) - at(from))
    }
    expect(work / (2 * moment * most)).toBeCloseTo(1, 6)
  })

  it('with friction is more', () => {
    const moment = balanceAlone(bent, 150).externalMomentNmm
    const phi = radians(30)
    const force = (mu: number) =>
      ramForceN(leverAt(bent, press(320, mu), 150, phi), press(320, mu), phi, moment)
    expect(force(0.15)).toBeGreaterThan(force(0))
  })
})

describe('the ram’s force', () => {
  it('on a straight tube is 4 M / L of the three-point beam', () => {
    const moment = 1e6
    expect(ramForceN(leverAt(bent, press(300), 150, 0), press(300), 0, moment)).toBeCloseTo(
      (4 * moment) / 300,
      6,
    )
  })

  it('is never less than what starts the tube yielding, 4 S Fty / L', () => {
    const full = balanceAlone(bent, 40_000)
    const { mostForceN } = stroke(bent, press(300), 40_000, 0.0005, full)
    expect(mostForceN).toBeGreaterThanOrEqual((4 * bent.section.elasticModulusMm3 * 150) / 300)
  })

  it('of a long span is largest before the full angle', () => {
    // Past a right angle between the arms the lever grows again: s / cos(phi) with L / 2 > R + d.
    const full = balanceAlone(bent, 150)
    const { mostForceN, atPhiRad } = stroke(bent, press(700), 150, radians(75), full)
    expect(atPhiRad).toBeLessThan(radians(75))
    const atEnd = ramForceN(
      leverAt(bent, press(700), 150, radians(75)),
      press(700),
      radians(75),
      full.externalMomentNmm,
    )
    expect(mostForceN).toBeGreaterThan(atEnd)
  })

  it('is the largest of the whole stroke, to a hundred-thousandth', () => {
    const full = balanceAlone(bent, 150)
    for (const span of [300, 350, 400, 500, 700]) {
      for (const friction of [0, 0.15, 0.3]) {
        const made = stroke(bent, press(span, friction), 150, radians(45), full)
        const closely = Math.max(...made.points(4001).map(({ forceN }) => forceN))
        expect(made.mostForceN / closely).toBeGreaterThan(1 - 1e-5)
        // Nor more than any point of it, but where the start of yielding asks for more.
        const startN = (4 * bent.section.elasticModulusMm3 * 150) / span
        expect(made.mostForceN / Math.max(closely, startN)).toBeLessThan(1 + 1e-5)
      }
    }
  })

  it('falls as the span grows', () => {
    const full = balanceAlone(bent, 150)
    const most = (span: number) => stroke(bent, press(span, 0.15), 150, radians(20), full).mostForceN
    expect(most(400)).toBeLessThan(most(300))
  })

  it('is refused where the supports leave no free length', () => {
    expect(() => stroke(bent, press(200), 150, radians(40), balanceAlone(bent, 150))).toThrow(
      /no free length/,
    )
  })
})

describe('the span that would work', () => {
  it('leaves one tube height free at the full angle', () => {
    const phi = radians(40)
    const spanMm = workingSpanMm(bent, leverAt(bent, press(300), 150, phi), 150, phi)
    expect(leverAt(bent, press(spanMm), 150, phi).freeMm).toBeCloseTo(40, 9)
  })
})
