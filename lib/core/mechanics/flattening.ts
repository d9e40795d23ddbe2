import type { BendInPress } from '@/lib/core/mechanics/bend-setting'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import type { Trace, TraceInput } from '@/lib/core/mechanics/trace'
import { fibreStrain } from '@/lib/core/mechanics/wall'

export type Flattening = Readonly<{
  /** Sag of the worse face of a rectangular tube; null for round. */
  flangeSagMm: number | null
  /** 100 (Dmax - Dmin) / D of a round tube; null for rectangular. */
  ovalityPct: number | null
  /** What the same tube would do hollow. */
  unsupportedMm: number
  /** Pressure of the wall on the filler, MPa. */
  pressureMPa: number
  /** p / (3 sf) of a low-melt filler; null for others. */
  fillerBearing: number | null
}>

/** Inward pressure of a flange's own stress and the sag it makes, hollow. */
function flange(bent: BentTube, bend: BendInPress, side: 1 | -1): { pressureMPa: number; sagMm: number } {
  const { widthMm, heightMm, wallMm } = bent.tube
  const middleMm = (side * (heightMm - wallMm)) / 2
  const strain = fibreStrain(middleMm, bend.loadedRadiusMm, bend.balance.neutralMm)
  const pressureMPa = (Math.abs(bent.curve.stressMPa(strain)) * wallMm) / (bend.loadedRadiusMm + middleMm)
  const stiffness = (bent.curve.secantMPa(strain) * wallMm ** 3) / 9
  const bc = widthMm - wallMm
  const hc = heightMm - wallMm
  return { pressureMPa, sagMm: ((pressureMPa * bc ** 4) / stiffness) * ((5 - (4 * bc) / (bc + hc)) / 384) }
}

/** How far the wall can sag before the filler stops it. */
function supportedMm(bent: BentTube, bend: BendInPress, pressureMPa: number): number {
  const { heightMm, wallMm } = bent.tube
  if (bent.support.kind === 'hollow') return Number.POSITIVE_INFINITY
  const squeezed = (pressureMPa * heightMm) / (2 * bent.support.modulusMPa)
  if (bent.support.kind === 'lowMelt') return squeezed
  const stretch = Math.max(fibreStrain(0, bend.loadedRadiusMm, bend.balance.neutralMm), 0)
  return (heightMm - 2 * wallMm) * stretch + squeezed
}

/**
 * Flattening of the section.
 *   rectangular: p = s t / R_face, Dp = Es t^3 / 9, sag = p bc^4 / Dp (5 - 4 bc / (bc + hc)) / 384, both faces, the larger
 *   round: u / r = 0.75 k^2 r^4 / t^2, ovality = 400 u / D
 *   filled: no more than p h / (2 E_filler), sand with the room it gains as the tube lengthens
 * Source: secant-modulus plate strip between webs; Brazier's form with nu = 0.5 (Brazier 1927). Screening.
 */
export function flattening(bent: BentTube, bend: BendInPress, trace?: Trace): Flattening {
  const found = bent.tube.shape === 'round' ? ovalising(bent, bend) : sagging(bent, bend)
  if (trace) recordFlattening(trace, bent, found)
  return found
}

function recordFlattening(trace: Trace, bent: BentTube, found: Flattening): void {
  const { tube, support } = bent
  const round = found.ovalityPct !== null
  const radius = ['RL', 'as loaded', '', 'loadedRadiusMm'] as const
  trace.step('unsupportedSagMm', {
    formula: round
      ? 'u = 0.75 k^2 r^5 / t^2,  k = 1 / RL,  r = (D - t) / 2'
      : 'sag = p bc^4 / Dp (5 - 4 bc / (bc + hc)) / 384,  p = s t / R_face,  Dp = Es t^3 / 9,  bc = b - t,  hc = h - t, the worse face',
    inputs: [radius, ['b', tube.widthMm, 'mm'], ['h', tube.heightMm, 'mm'], ['t', tube.wallMm, 'mm']],
    value: found.unsupportedMm,
    unit: 'mm',
    source: round
      ? 'L. G. Brazier, Proc. R. Soc. A 116 (1927) 104, with nu = 0.5'
      : 'plate strip between webs with the secant modulus (Timoshenko)',
    trust: 'screening',
  })
  trace.step('wallPressureMPa', {
    formula: round
      ? 'p = s t / (RL - D/2), s at the inside'
      : 'p = s t / R_face, the larger of the two faces',
    inputs: [radius, ['t', tube.wallMm, 'mm']],
    value: found.pressureMPa,
    unit: 'MPa',
    source: 'statics of a curved flange',
    trust: 'screening',
  })
  const filled: TraceInput[] =
    support.kind === 'hollow'
      ? []
      : [
          ['p', found.pressureMPa, 'MPa', 'wallPressureMPa'],
          ['E of the filler', support.modulusMPa, 'MPa'],
        ]
  const held = support.kind === 'hollow' ? '' : ', no more than p h / (2 E) of the filler'
  trace.step(round ? 'ovalityPct' : 'flangeSagMm', {
    formula: round ? `100 (Dmax - Dmin) / D = 400 u / D${held}` : `sag of the hollow tube${held}`,
    inputs: [['hollow', found.unsupportedMm, 'mm', 'unsupportedSagMm'], ...filled],
    value: found.ovalityPct ?? found.flangeSagMm ?? 0,
    unit: round ? '%' : 'mm',
    source: 'the smaller of plate and filler',
    trust: 'screening',
  })
  if (found.fillerBearing !== null && support.kind === 'lowMelt')
    trace.step('fillerBearing', {
      formula: 'p / (3 sf)',
      inputs: [
        ['p', found.pressureMPa, 'MPa', 'wallPressureMPa'],
        ['sf', support.yieldMPa, 'MPa'],
      ],
      value: found.fillerBearing,
      unit: '',
      source: 'plane indentation, about three times the yield',
      trust: 'screening',
    })
}

/** Pressure on a low-melt filler over three times its yield; null for others. */
function bearing(bent: BentTube, pressureMPa: number): number | null {
  return bent.support.kind === 'lowMelt' ? pressureMPa / (3 * bent.support.yieldMPa) : null
}

function ovalising(bent: BentTube, bend: BendInPress): Flattening {
  const { heightMm: diameterMm, wallMm } = bent.tube
  const r = (diameterMm - wallMm) / 2
  const unsupportedMm = (0.75 * r ** 5) / (bend.loadedRadiusMm ** 2 * wallMm ** 2)
  const innerStrain = fibreStrain(-diameterMm / 2, bend.loadedRadiusMm, bend.balance.neutralMm)
  const pressureMPa =
    (Math.abs(bent.curve.stressMPa(innerStrain)) * wallMm) / (bend.loadedRadiusMm - diameterMm / 2)
  const inwardMm = Math.min(unsupportedMm, supportedMm(bent, bend, pressureMPa))
  return {
    flangeSagMm: null,
    ovalityPct: (400 * inwardMm) / diameterMm,
    unsupportedMm,
    pressureMPa,
    fillerBearing: bearing(bent, pressureMPa),
  }
}

function sagging(bent: BentTube, bend: BendInPress): Flattening {
  const outer = flange(bent, bend, 1)
  const inner = flange(bent, bend, -1)
  const pressureMPa = Math.max(outer.pressureMPa, inner.pressureMPa)
  const unsupportedMm = Math.max(outer.sagMm, inner.sagMm)
  return {
    flangeSagMm: Math.min(unsupportedMm, supportedMm(bent, bend, pressureMPa)),
    ovalityPct: null,
    unsupportedMm,
    pressureMPa,
    fillerBearing: bearing(bent, pressureMPa),
  }
}

export type RamBearing = Readonly<{ yieldingN: number; cripplingN: number }>

/**
 * What the side walls of a rectangular tube carry under the ram, both walls, no resistance factor.
 *   local yielding 2 Fy t (5 k + lb);  web crippling 1.6 t^2 (1 + 3 lb / (h - 3 t)) sqrt(E Fy);  k = 1.5 t
 * Source: AISC 360-10 eqs. K1-9 and K1-10 (360-16 section J10), from memory. Valid: hollow rectangular sections. Screening.
 */
export function ramBearing(bent: BentTube, bearingLengthMm: number): RamBearing | null {
  if (bent.tube.shape === 'round') return null
  const { wallMm, heightMm } = bent.tube
  const { yieldMPa, elasticModulusMPa } = bent.material
  return {
    yieldingN: 2 * yieldMPa * wallMm * (5 * 1.5 * wallMm + bearingLengthMm),
    cripplingN:
      1.6 *
      wallMm ** 2 *
      (1 + (3 * bearingLengthMm) / Math.max(heightMm - 3 * wallMm, wallMm)) *
      Math.sqrt(elasticModulusMPa * yieldMPa),
  }
}
