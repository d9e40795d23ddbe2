import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bendOnGivenDie, bendOnRightDie } from '@/lib/core/mechanics/bend-in-press'
import { BentTube } from '@/lib/core/mechanics/bent-tube'
import { FillerMoment } from '@/lib/core/mechanics/filler-moment'
import type { TubeMaterial } from '@/lib/core/mechanics/material-curve'
import type { Tube } from '@/lib/core/mechanics/section'

const square = (sideMm: number, wallMm: number, cornerRadiusMm = 0): Tube => ({
  shape: 'square',
  widthMm: sideMm,
  heightMm: sideMm,
  wallMm,
  cornerRadiusMm,
})
const round = (diameterMm: number, wallMm: number): Tube => ({
  shape: 'round',
  widthMm: diameterMm,
  heightMm: diameterMm,
  wallMm,
  cornerRadiusMm: 0,
})
/** Of the given Ramberg-Osgood exponent; 30 000 hardens by so little that the tube is as good as perfectly plastic. */
const material = (elasticModulusMPa: number, yieldMPa: number, exponent = 30_000): TubeMaterial => ({
  family: 'aluminium',
  elasticModulusMPa,
  yieldMPa,
  tensileMPa: yieldMPa * (0.1 / 0.002) ** (1 / exponent),
  uniformStrain: 0.1,
  elongationPct: 12,
  poisson: 0.33,
  densityKgM3: 2700,
})

/** Radius after release of a bar bent past yield: 1 / Rf = 1 / R - M / (E I). */
function releasedRadius(momentNmm: number, stiffness: number, radiusMm: number): number {
  return 1 / (1 / radiusMm - momentNmm / stiffness)
}

describe('springback of a solid strip', () => {
  /** A strip T thick and 10 wide, as the filler of an almost wall-less tube. */
  const releasedRatio = (radius: number, thickness: number, yieldStress: number, modulus: number) => {
    const bar = new FillerMoment(
      {
        shape: 'rectangular',
        widthMm: 10 + 2e-9,
        heightMm: thickness + 2e-9,
        wallMm: 1e-9,
        cornerRadiusMm: 0,
      },
      { modulusMPa: modulus, yieldMPa: yieldStress },
    )
    return radius / releasedRadius(bar.at(1 / radius), bar.stiffness, radius)
  }

  it.each([
    [0.05, 0.8505],
    [0.1, 0.704],
    [0.25, 0.3125],
  ])(
    'is Ri / Rf = 4 x^3 - 3 x + 1 at x = Ri Y / (E T) = %f (Gardiner, Trans. ASME 79 (1957) 1)',
    (x, ratio) => {
      expect(releasedRatio(100, 2, (x * 200_000 * 2) / 100, 200_000)).toBeCloseTo(ratio, 6)
    },
  )

  it('of 20 gauge steel at 0.5 in is Ri / Rf = 0.9424, Rf = 0.531 in (Kalpakjian and Schmid, from memory)', () => {
    // T 0.0359 in, Y 40 ksi, E 29e6 psi: x = 0.019210.
    const ratio = releasedRatio(0.5, 0.0359, 40, 29_000)
    expect(ratio).toBeCloseTo(0.9424, 4)
    expect(0.5 / ratio).toBeCloseTo(0.531, 3)
  })

  it('of 10 mm at 100 mm, Y 235, E 210 000 is 0.966434, by Gardiner’s cubic', () => {
    expect(releasedRatio(100, 10, 235, 210_000)).toBeCloseTo(0.966434, 5)
  })
})

describe('springback of a tube', () => {
  // Worked out twice, by 400 000 strips and by closed form or adaptive quadrature: moment in N·m, radius after release in mm.
  it.each([
    ['SHS 40x40x3 sharp, 130 MPa, no hardening', square(40, 3), material(70_000, 130), 150, 802.6, 152.573],
    ['SHS 40x40x3 rounded, 130 MPa', square(40, 3, 6), material(70_000, 130), 150, 744.04, 152.61],
    ['SHS 40x40x3 rounded, S235', square(40, 3, 6), material(210_000, 235), 200, 1345.0, 202.786],
    ['CHS 50.8x0.889, 110 MPa', round(50.8, 0.889), material(70_000, 110), 76.2, 243.63, 76.668],
    ['SHS 25x25x2.5 sharp, 120 MPa', square(25, 2.5), material(70_000, 120), 100, 228.74, 101.73],
    [
      'SHS 40x40x3 sharp, Ramberg-Osgood 130, n 16',
      square(40, 3),
      material(70_000, 130, 16),
      150,
      1026.5,
      153.307,
    ],
    [
      'SHS 40x40x3 sharp, Ramberg-Osgood 240, n 55',
      square(40, 3),
      material(70_000, 240, 55),
      150,
      1591.1,
      155.189,
    ],
  ])('%s', (_, tube, alloy, radiusMm, momentNm, finalMm) => {
    const bent = new BentTube(tube, alloy, { kind: 'hollow' }, null)
    const moment = bent.tubeMomentNmm(1 / radiusMm)
    expect(Math.abs(moment / 1000 / momentNm - 1)).toBeLessThan(0.001)
    expect(Math.abs(releasedRadius(moment, bent.stiffness, radiusMm) - finalMm)).toBeLessThan(0.02)
  })
})

const press = { supportSpanMm: 400, supportNoseRadiusMm: 20, supportFrictionCoeff: 0.15 }
const setting = (alloy: TubeMaterial, angleDeg = 40, radiusMm = 200, springbackFactor = 1, span = 400) => ({
  bent: new BentTube(square(40, 3), alloy, { kind: 'hollow' }, null),
  press: { ...press, supportSpanMm: span },
  wanted: { angleRad: (angleDeg * Math.PI) / 180, radiusMm },
  springbackFactor,
})

describe('the die that gives the wanted bend', () => {
  it('springs back to the wanted radius and, with the arms, to the wanted angle', () => {
    const alloy = fc.tuple(
      fc.double({ min: 60, max: 300, noNaN: true }),
      fc.double({ min: 5, max: 60, noNaN: true }),
    )
    fc.assert(
      fc.property(alloy, fc.double({ min: 20, max: 80, noNaN: true }), ([yieldMPa, exponent], angleDeg) => {
        const asked = setting(material(70_000, yieldMPa, exponent), angleDeg)
        const made = bendOnRightDie(asked)
        expect(1 / made.loadedRadiusMm - made.recovery).toBeCloseTo(1 / 200, 10)
        const arc = 2 * made.phiRad * made.loadedRadiusMm
        expect(arc / 200 + 2 * made.arm.keptRad).toBeCloseTo(asked.wanted.angleRad, 9)
      }),
      { numRuns: 40 },
    )
  })

  it('given back as the shop’s die makes the same bend', () => {
    const asked = setting(material(70_000, 150, 12))
    const made = bendOnRightDie(asked)
    const again = bendOnGivenDie(asked, made.loadedRadiusMm - 20)
    expect(again.finalRadiusMm).toBeCloseTo(200, 6)
    expect(again.phiRad).toBeCloseTo(made.phiRad, 8)
  })

  it('is tighter for a stronger tube, a larger factor, a softer modulus', () => {
    const radius = (asked: ReturnType<typeof setting>) => bendOnRightDie(asked).loadedRadiusMm
    const plain = radius(setting(material(70_000, 150, 12)))
    expect(radius(setting(material(70_000, 200, 12)))).toBeLessThan(plain)
    expect(radius(setting(material(70_000, 150, 12), 40, 200, 1.2))).toBeLessThan(plain)
    expect(radius(setting(material(60_000, 150, 12)))).toBeLessThan(plain)
  })

  it('leaves less to the arms on a shorter span', () => {
    const kept = (span: number) =>
      bendOnRightDie(setting(material(70_000, 150, 12), 40, 200, 1, span)).arm.keptRad
    expect(kept(350)).toBeLessThan(kept(450))
  })

  it('is the same in any unit of length', () => {
    const asked = setting(material(70_000, 150, 12))
    const made = bendOnRightDie(asked)
    // Everything ten times as long: stress, strain and angles stay.
    const grown = bendOnRightDie({
      ...asked,
      bent: new BentTube(square(400, 30), asked.bent.material, { kind: 'hollow' }, null),
      press: { ...press, supportSpanMm: 4000, supportNoseRadiusMm: 200 },
      wanted: { ...asked.wanted, radiusMm: 2000 },
    })
    expect(grown.loadedRadiusMm / made.loadedRadiusMm).toBeCloseTo(10, 8)
    expect(grown.phiRad).toBeCloseTo(made.phiRad, 9)
    expect(grown.balance.externalMomentNmm / made.balance.externalMomentNmm / 1000).toBeCloseTo(1, 8)
  })

  it('is refused where the arms alone would keep the angle', () => {
    const soft = material(70_000, 150, 5)
    expect(() => bendOnRightDie(setting(soft, 0.5, 200, 1, 2500))).toThrow(/arms alone/)
    // The angle it names is what both arms keep: a bend a little larger than that keeps nearly nothing in its arc.
    let told = ''
    try {
      bendOnRightDie(setting(soft, 0.5, 200, 1, 2500))
    } catch (cause) {
      told = (cause as Error).message
    }
    const keptDeg = Number(/keep ([\d.]+) degrees/.exec(told)?.[1])
    const just = bendOnRightDie(setting(soft, keptDeg + 0.05, 200, 1, 2500))
    expect((2 * just.arm.keptRad * 180) / Math.PI).toBeCloseTo(keptDeg, 1)
    expect(just.phiRad).toBeLessThan(0.001)
  })
})
