import { balanceAlone } from '@/lib/core/mechanics/balance'
import type { BendInPress } from '@/lib/core/mechanics/bend-setting'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { FillerMoment } from '@/lib/core/mechanics/filler-moment'
import { flattening, ramBearing } from '@/lib/core/mechanics/flattening'
import { hardeningExponent, strainAtStress, uniformStrain } from '@/lib/core/mechanics/material-curve'
import { leverAt, ramForceN, ramTravelMm } from '@/lib/core/mechanics/press'
import { bentSection, reductionRadiusMm, tearRadiusMm, tearUtilisation } from '@/lib/core/mechanics/wall'
import { strapMomentNmm } from '@/lib/core/mechanics/yielding-strip'
import { outsideCheck, printed, within } from '@/tests/support/outside-check'
import { bare, metal, rectangle, round, square } from './tubes'

const radians = (angleDeg: number) => (angleDeg * Math.PI) / 180

/** A bend as it lies on the die; what springs back is left out. */
function onDie(bent: BentTube, loadedRadiusMm: number): BendInPress {
  return {
    loadedRadiusMm,
    finalRadiusMm: loadedRadiusMm,
    phiRad: 0.3,
    balance: balanceAlone(bent, loadedRadiusMm),
    lever: { freeMm: 100, leverMm: 100, sense: 1, offsetMm: 40 },
    arm: { loadedRad: 0, atPressRad: 0, keptRad: 0, bowMm: 0 },
    recovery: 0,
    pressRecovery: 0,
  }
}

export function curveChecks(): void {
  const alloy = (yieldMPa: number, tensileMPa: number) => {
    const { uniformStrain: _, ...rest } = metal(70_000, yieldMPa)
    return { ...rest, tensileMPa }
  }
  for (const [name, yieldMPa, tensileMPa, exponent] of [
    ['6060-T5', 120, 160, 17],
    ['6060-T6', 140, 170, 24],
    ['6060-T66', 160, 215, 16],
    ['6061-T6', 240, 260, 55],
    ['6063-T5 to 3 mm', 130, 175, 16],
    ['6063-T5 over 3 mm', 110, 160, 13],
    ['6063-T6', 160, 195, 24],
    ['6063-T6 drawn', 190, 220, 31],
    ['6063-T66', 200, 245, 22],
    ['6005A-T6', 225, 270, 25],
    ['5083-O', 110, 270, 5],
  ] as const)
    outsideCheck(
      {
        part: 'curve',
        claim: `Exponent n_p of ${name}`,
        source: 'EN 1999-1-1:2007 Table 3.2b',
        kind: 'second hand',
        expected: exponent,
        tolerance: 0.5,
        unit: '',
      },
      () => hardeningExponent(alloy(yieldMPa, tensileMPa)),
    )
  const annexE = { part: 'curve', source: 'EN 1999-1-1:2007 Annex E', kind: 'memory', unit: '' } as const
  outsideCheck(
    {
      ...annexE,
      claim: 'Uniform strain of 6061-T6: 0.30 − 0.22 · 240 / 400',
      expected: 0.168,
      tolerance: 1e-9,
    },
    () => uniformStrain(alloy(240, 260)),
  )
  outsideCheck({ ...annexE, claim: 'Uniform strain from 400 MPa', expected: 0.08, tolerance: 1e-9 }, () =>
    uniformStrain(alloy(400, 450)),
  )
  const points = {
    part: 'curve',
    source: 'Ramberg and Osgood, NACA TN 902 (1943): s/E + 0.002 (s/f)^n',
    kind: 'by hand',
    unit: '',
  } as const
  for (const [claim, stress, yieldMPa, exponent, text] of [
    ['Strain of 6063-T5 at its proof stress', 130, 130, 16, '0.0038571'],
    ['Strain of 6063-T5 at 150 MPa, n 16', 150, 130, 16, '0.0218851'],
    ['Strain of 6061-T6 at 250 MPa, n 55', 250, 240, 55, '0.0224563'],
  ] as const)
    outsideCheck({ ...points, claim, ...printed(text, 2) }, () =>
      strainAtStress(stress, alloy(yieldMPa, yieldMPa * 1.2), exponent),
    )
}

export function momentChecks(): void {
  const strip = { thicknessMm: 10, widthMm: 40, yieldMPa: 300, frictionCoeff: 0 }
  const kneeCurvature = (2 * 300) / (205_000 * 10)
  for (const [ratio, text] of [
    [1, '1.00000'],
    [1.5, '1.27778'],
    [2, '1.37500'],
    [3, '1.44444'],
    [5, '1.48000'],
    [10, '1.49500'],
  ] as const)
    outsideCheck(
      {
        part: 'moment',
        claim: `Rectangle at ${ratio} times the yield curvature: M over My`,
        source: 'Beer and Johnston, Mechanics of Materials: 1.5 (1 − (yY/c)²/3)',
        kind: 'closed form',
        ...printed(text),
        unit: '',
      },
      () => strapMomentNmm(strip, ratio * kneeCurvature, 0) / ((300 * 40 * 10 ** 2) / 6),
    )

  // Beer and Johnston's example bar, 50 x 120 mm, sY 240 MPa, E 200 GPa, M 36.8 kN m: the bar as the filler of a tube without wall.
  const bar = new FillerMoment(rectangle(50 + 2e-9, 120 + 2e-9, 1e-9), { modulusMPa: 200_000, yieldMPa: 240 })
  const beer = {
    part: 'moment',
    source: 'Beer and Johnston, Mechanics of Materials, Examples 4.5 and 4.6',
    kind: 'memory',
  } as const
  outsideCheck(
    { ...beer, claim: '50 x 120 mm bar bent to 33.3 m: moment', ...printed('36.8'), unit: 'kN·m' },
    () => bar.at(1 / 33_333.3) / 1e6,
  )
  outsideCheck({ ...beer, claim: 'The same bar let go: radius', ...within(225, 0.1), unit: 'm' }, () => {
    return 1 / (1 / 33_333.3 - bar.at(1 / 33_333.3) / bar.stiffness) / 1000
  })
  for (const share of [0.3, 0.6, 0.9])
    outsideCheck(
      {
        part: 'moment',
        claim: `Plastic rectangle under ${share} of its full tension: M over Mp`,
        source: 'EN 1993-1-1 6.2.9.1: 1 − (N/Npl)²',
        kind: 'memory',
        expected: Number((1 - share ** 2).toFixed(2)),
        tolerance: 0.0005,
        unit: '',
      },
      () => strapMomentNmm(strip, 1e3 * kneeCurvature, share * 300 * 400) / ((300 * 40 * 10 ** 2) / 4),
    )

  for (const [ratio, text] of [
    ['1/2', '1.21800'],
    ['1/3', '1.24925'],
    ['1/5', '1.26470'],
    ['1/10', '1.27111'],
  ] as const)
    outsideCheck(
      {
        part: 'moment',
        claim: `Thin round tube at ky/k = ${ratio}: M over My`,
        source: 'Elastic-plastic ring: (2/π)(b/sin b + cos b), sin b = ky/k',
        kind: 'closed form',
        expected: Number(text),
        tolerance: 0.002,
        unit: '',
      },
      () => {
        const bent = bare(round(50, 0.01), metal(70_000, 110))
        const knee = (2 * 110) / (70_000 * 50)
        return bent.tubeMomentNmm(knee * Number(ratio.split('/')[1])) / (110 * bent.section.elasticModulusMm3)
      },
    )
}

export function pressChecks(): void {
  const bent = bare(square(40, 3), { ...metal(70_000, 150), tensileMPa: 240 })
  const press = { supportSpanMm: 300, supportNoseRadiusMm: 25, supportFrictionCoeff: 0 }
  for (const [angleDeg, text] of [
    [20, '23.441'],
    [40, '42.081'],
    [60, '56.436'],
    [90, '69.228'],
  ] as const)
    outsideCheck(
      {
        part: 'press',
        claim: `Travel to ${angleDeg}°: half span 150, die 130, tube 40, noses 25 mm`,
        source: 'Circles and common tangents drawn: a tan φ − S (1/cos φ − 1)',
        kind: 'closed form',
        ...printed(text),
        unit: 'mm',
      },
      () => {
        const phi = radians(angleDeg / 2)
        return ramTravelMm(leverAt(bent, press, 150, phi), 150, phi, 0)
      },
    )
  outsideCheck(
    {
      part: 'press',
      claim: 'Free length left at 90° of the same set-up',
      source: 'Circles and common tangents drawn: a tan φ − S (1/cos φ − 1)',
      kind: 'closed form',
      ...printed('17.13'),
      unit: 'mm',
    },
    () => leverAt(bent, press, 150, radians(45)).freeMm,
  )
  // Mp of SHS 40x40x3 (Wpl 5.72 cm3) at 235 MPa = 1.344 kN m; 4 Mp / L at 300 mm.
  outsideCheck(
    {
      part: 'press',
      claim: 'Collapse of SHS 40x40x3 in S235 over 300 mm: 4 Mp / L',
      source: 'Three-point beam, EN 10219-2 modulus',
      kind: 'by hand',
      ...printed('17.92'),
      unit: 'kN',
    },
    () => ramForceN(leverAt(bent, press, 150, 0), press, 0, 1.344e6) / 1000,
  )
  const steel = { ...metal(29_000, 46), tensileMPa: 58 }
  const hss = bare(square(3, 0.233), steel)
  const aisc = { part: 'press', source: 'AISC 360-10 K1-9, K1-10', kind: 'memory', unit: 'kip' } as const
  outsideCheck(
    { ...aisc, claim: 'HSS3x3x1/4, 46 ksi, 2 in bearing: side walls yield', ...printed('80.3') },
    () => ramBearing(hss, 2)?.yieldingN ?? Number.NaN,
  )
  outsideCheck(
    { ...aisc, claim: 'HSS3x3x1/4, 46 ksi, 2 in bearing: side walls cripple', ...printed('361.9', 2) },
    () => ramBearing(hss, 2)?.cripplingN ?? Number.NaN,
  )
}

export function springbackChecks(): void {
  /** Ri / Rf of a strip T thick: the filler of a tube with next to no wall. */
  const ratio = (radius: number, thickness: number, yieldStress: number, modulus: number) => {
    const bar = new FillerMoment(rectangle(10 + 2e-9, thickness + 2e-9, 1e-9), {
      modulusMPa: modulus,
      yieldMPa: yieldStress,
    })
    return 1 - (radius * bar.at(1 / radius)) / bar.stiffness
  }
  const cubic = {
    part: 'springback',
    source: 'Gardiner, Trans. ASME 79 (1957) 1: Ri/Rf = 4x³ − 3x + 1',
    kind: 'memory',
    unit: '',
  } as const
  for (const [x, text] of [
    [0.05, '0.8505'],
    [0.1, '0.7040'],
    [0.25, '0.3125'],
  ] as const)
    outsideCheck({ ...cubic, claim: `Strip at x = ${x}: Ri/Rf`, ...printed(text) }, () =>
      ratio(100, 2, x * 4000, 200_000),
    )
  outsideCheck({ ...cubic, claim: '10 mm strip at 100 mm, 235 MPa: Ri/Rf', ...printed('0.966434', 2) }, () =>
    ratio(100, 10, 235, 210_000),
  )
  const text = {
    part: 'springback',
    source: 'Kalpakjian and Schmid, Manufacturing Engineering and Technology',
    kind: 'memory',
  } as const
  outsideCheck({ ...text, claim: '20 gauge steel at 0.5 in: Ri/Rf', ...printed('0.9424'), unit: '' }, () =>
    ratio(0.5, 0.0359, 40, 29_000),
  )
  outsideCheck(
    { ...text, claim: '20 gauge steel at 0.5 in springs to', ...printed('0.531'), unit: 'in' },
    () => 0.5 / ratio(0.5, 0.0359, 40, 29_000),
  )

  for (const [name, tube, material, radiusMm, momentNm, finalMm] of [
    ['SHS 40x40x3 sharp, flat 130 MPa', square(40, 3), metal(70_000, 130), 150, 802.6, 152.573],
    ['SHS 40x40x3 rounded, flat 130 MPa', square(40, 3, 6), metal(70_000, 130), 150, 744.04, 152.61],
    ['SHS 40x40x3 rounded, flat 235 MPa steel', square(40, 3, 6), metal(210_000, 235), 200, 1345, 202.786],
    ['CHS 50.8x0.889, flat 110 MPa', round(50.8, 0.889), metal(70_000, 110), 76.2, 243.63, 76.668],
    ['SHS 25x25x2.5 sharp, flat 120 MPa', square(25, 2.5), metal(70_000, 120), 100, 228.74, 101.73],
    [
      'SHS 40x40x3 sharp, 130 MPa hardening n 16',
      square(40, 3),
      metal(70_000, 130, 16),
      150,
      1026.5,
      153.307,
    ],
    [
      'SHS 40x40x3 sharp, 240 MPa hardening n 55',
      square(40, 3),
      metal(70_000, 240, 55),
      150,
      1591.1,
      155.189,
    ],
  ] as const) {
    const source = '400 000 strips, and again by closed form or adaptive quadrature'
    const moment = () => bare(tube, material).tubeMomentNmm(1 / radiusMm)
    outsideCheck(
      {
        part: 'moment',
        claim: `${name}, at ${radiusMm} mm: moment`,
        source,
        kind: 'independent',
        ...within(momentNm, 0.1),
        unit: 'N·m',
      },
      () => moment() / 1000,
    )
    outsideCheck(
      {
        part: 'springback',
        claim: `${name}, at ${radiusMm} mm: radius let go`,
        source,
        kind: 'independent',
        expected: finalMm,
        tolerance: 0.02,
        unit: 'mm',
      },
      () => 1 / (1 / radiusMm - moment() / bare(tube, material).stiffness),
    )
  }
}

export function wallChecks(): void {
  const alloy = { ...metal(70_000, 150), tensileMPa: 240 }
  for (const [diameters, thin, thick] of [
    [1, '33.33', '100.0'],
    [1.5, '25.00', '50.0'],
    [2, '20.00', '33.3'],
    [3, '14.29', '20.0'],
    [4, '11.11', '14.3'],
    [5, '9.09', '11.1'],
  ] as const) {
    const section = () =>
      bentSection(bare(round(50, 2), alloy), onDie(bare(round(50, 2), alloy), diameters * 50))
    const source = 'Tingley, Rotary-Draw Tube-Bending Guide: (Ro − R) / Ro'
    outsideCheck(
      {
        part: 'wall',
        claim: `Round tube at ${diameters} D: outside wall thins`,
        source,
        kind: 'second hand',
        ...printed(thin),
        unit: '%',
      },
      () => 100 * (1 - section().wallOutsideMm.expected / 2),
    )
    outsideCheck(
      {
        part: 'wall',
        claim: `Round tube at ${diameters} D: inside wall thickens`,
        source: 'Volume kept, girth held: 1 / (1 − e)',
        kind: 'closed form',
        ...printed(thick),
        unit: '%',
      },
      () => 100 * (section().wallInsideMm.expected / 2 - 1),
    )
  }
  const held = bare(square(40, 3), alloy)
  outsideCheck(
    {
      part: 'wall',
      claim: '40 mm tube at 150 mm: outer strain',
      source: 'Strain of a bent beam, h / 2R',
      kind: 'closed form',
      ...printed('0.13333'),
      unit: '',
    },
    () => bentSection(held, onDie(held, 150)).outerStrain,
  )
  outsideCheck(
    {
      part: 'wall',
      claim: '40 mm square tube at 150 mm: outer face, plastic bound',
      source: 'Anticlastic bending with ν = 0.5',
      kind: 'closed form',
      expected: 37.33,
      tolerance: 0.15,
      unit: 'mm',
    },
    () => bentSection(held, onDie(held, 150)).widthOutsideMm ?? Number.NaN,
  )
  outsideCheck(
    {
      part: 'wall',
      claim: '1½ in square tube at 9.5 heights: face narrows',
      source: 'A measured bend, 0.040 in on 1.5 in',
      kind: 'practice',
      expected: 2.67,
      tolerance: 0.15,
      unit: '%',
    },
    () => {
      const bent = bare(square(38.1, 3.175), alloy)
      return 100 * (1 - (bentSection(bent, onDie(bent, 9.5 * 38.1)).widthOutsideMm ?? 0) / 38.1)
    },
  )

  const kalpakjian = {
    part: 'tearing',
    source: 'Kalpakjian and Schmid: least R/T = 50/r − 1',
    unit: 'T',
  } as const
  for (const [reduction, text, kind] of [
    [10, '4.00', 'second hand'],
    [20, '1.50', 'closed form'],
    [25, '1.00', 'closed form'],
    [40, '0.25', 'closed form'],
    [50, '0.00', 'closed form'],
  ] as const)
    outsideCheck(
      {
        ...kalpakjian,
        kind,
        claim: `${reduction} percent reduction of area: least inside radius`,
        ...printed(text),
      },
      () => {
        const radius = reductionRadiusMm(bare(square(40, 3), { ...alloy, reductionOfAreaPct: reduction }))
        return ((radius ?? Number.NaN) - 20) / 40
      },
    )
  const share = {
    part: 'tearing',
    source: 'Outer strain over 0.7 of the elongation',
    kind: 'by hand',
  } as const
  outsideCheck({ ...share, claim: '0.13333 of 0.7 · 16 percent', ...printed('1.1905'), unit: '' }, () =>
    tearUtilisation(held, 0.133333),
  )
  outsideCheck(
    {
      ...share,
      claim: '40 mm tube, 16 percent: radius at which all is used',
      ...printed('178.57'),
      unit: 'mm',
    },
    () => tearRadiusMm(held, 0),
  )

  // r 24.5, t 2, R 500: u = 0.75 · 24.5^5 / (500^2 · 4) = 6.6206 mm; 400 u / 51.
  outsideCheck(
    {
      part: 'flattening',
      claim: '51 x 2 mm at 500 mm, ν 0.5: ovality',
      source: 'Brazier, Proc. R. Soc. A 116 (1927) 104: u/r = k² r⁴ (1 − ν²) / t²',
      kind: 'memory',
      ...printed('51.93'),
      unit: '%',
    },
    () =>
      flattening(bare(round(51, 2), alloy), onDie(bare(round(51, 2), alloy), 500)).ovalityPct ?? Number.NaN,
  )
  outsideCheck(
    {
      part: 'flattening',
      claim: '130 MPa, 3 mm at 150 mm: pressure on the filler',
      source: 'Statics of a curved flange, s t / R',
      kind: 'closed form',
      ...printed('2.60'),
      unit: 'MPa',
    },
    () =>
      flattening(
        bare(square(40, 3), metal(70_000, 130)),
        onDie(bare(square(40, 3), metal(70_000, 130)), 168.5),
      ).pressureMPa,
  )
}
