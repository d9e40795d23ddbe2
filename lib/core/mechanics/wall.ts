import type { BendInPress } from '@/lib/core/mechanics/bend-setting'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import type { Trace, TraceInput } from '@/lib/core/mechanics/trace'

/** Strain of the fibre at y, neutral axis at y_n: (y - y_n) / (R + y_n). Exact. */
export function fibreStrain(yMm: number, radiusMm: number, neutralMm: number): number {
  return (yMm - neutralMm) / (radiusMm + neutralMm)
}

export type Bounds = Readonly<{ low: number; expected: number; high: number }>

export type BentSection = Readonly<{
  outerStrain: number
  innerStrain: number
  wallOutsideMm: Bounds
  wallInsideMm: Bounds
  /** Rectangular and square tube only. */
  widthOutsideMm: number | null
  widthInsideMm: number | null
}>

/**
 * Share by which a fibre narrows across, elastic recovery taken off.
 *   1 - nu_eff e + nu dk y,  nu_eff = 0.5 - (0.5 - nu) s / (E e),  nu at e = 0
 */
function acrossFactor(bent: BentTube, yMm: number, strain: number, recovery: number): number {
  const { poisson, elasticModulusMPa } = bent.material
  const effective = 0.5 - ((0.5 - poisson) * bent.curve.secantMPa(strain)) / elasticModulusMPa
  return 1 - effective * strain + poisson * recovery * yMm
}

/**
 * Strains, walls and face widths after bending.
 *   free section: width and wall times the factor above at y = +-h/2;  held section: t / (1 + e)
 * Expected: held for round tube, free for rectangular. Source: volume constancy with Poisson contraction (free) or no hoop strain (held);
 * Tingley, Rotary-Draw Tube-Bending Guide, for the held outside wall. Mechanics.
 */
export function bentSection(bent: BentTube, bend: BendInPress, trace?: Trace): BentSection {
  const half = bent.tube.heightMm / 2
  const { neutralMm } = bend.balance
  const outerStrain = fibreStrain(half, bend.loadedRadiusMm, neutralMm)
  const innerStrain = fibreStrain(-half, bend.loadedRadiusMm, neutralMm)
  const outerFactor = acrossFactor(bent, half, outerStrain, bend.recovery)
  const innerFactor = acrossFactor(bent, -half, innerStrain, bend.recovery)
  const isRound = bent.tube.shape === 'round'
  const wall = (strain: number, factor: number): Bounds => {
    const free = bent.tube.wallMm * factor
    const held = bent.tube.wallMm / (1 + strain)
    return { low: Math.min(free, held), expected: isRound ? held : free, high: Math.max(free, held) }
  }
  const found: BentSection = {
    outerStrain,
    innerStrain,
    wallOutsideMm: wall(outerStrain, outerFactor),
    wallInsideMm: wall(innerStrain, innerFactor),
    widthOutsideMm: isRound ? null : bent.tube.widthMm * outerFactor,
    widthInsideMm: isRound ? null : bent.tube.widthMm * innerFactor,
  }
  if (trace) recordSection(trace, bent, bend, found)
  return found
}

function recordSection(trace: Trace, bent: BentTube, bend: BendInPress, found: BentSection): void {
  const { tube, material } = bent
  const radius: TraceInput = ['RL', bend.loadedRadiusMm, 'mm', 'loadedRadiusMm']
  const shift: TraceInput = ['y_n', bend.balance.neutralMm, 'mm', 'neutralAxisShiftMm']
  for (const [side, sign] of [
    ['outer', ''],
    ['inner', '-'],
  ] as const) {
    const strainKey = `${side}Strain` as const
    const strain = found[strainKey]
    trace.step(strainKey, {
      formula: `e = (${sign}h/2 - y_n) / (RL + y_n)`,
      inputs: [['h', tube.heightMm, 'mm'], shift, radius],
      value: strain,
      unit: '',
      source: 'plane sections',
      trust: 'exact',
    })
    const across: TraceInput[] = [
      ['e', strain, '', strainKey],
      ['nu', material.poisson],
      ['s / (E e)', bent.curve.secantMPa(strain) / material.elasticModulusMPa],
      ['dk', bend.recovery, '1/mm', 'recoveryPerMm'],
    ]
    const name = side === 'outer' ? 'Outside' : 'Inside'
    const free = '(1 - nu_eff e + nu dk y),  nu_eff = 0.5 - (0.5 - nu) s / (E e)'
    const bounds = found[`wall${name}Mm`]
    for (const bound of ['low', 'expected', 'high'] as const) {
      trace.step(`wall${name}Mm.${bound}`, {
        formula: `free section t ${free};  held section t / (1 + e);  ${
          bound === 'expected'
            ? tube.shape === 'round'
              ? 'held for round tube'
              : 'free for rectangular tube'
            : bound === 'low'
              ? 'the smaller'
              : 'the larger'
        }`,
        inputs: [['t', tube.wallMm, 'mm'], ...across],
        value: bounds[bound],
        unit: 'mm',
        source: 'constant volume, Poisson contraction (free) or no hoop strain (held)',
        trust: 'mechanics',
      })
    }
    const widthMm = found[`width${name}Mm`]
    if (widthMm !== null)
      trace.step(`width${name}Mm`, {
        formula: `b ${free}`,
        inputs: [['b', tube.widthMm, 'mm'], ...across],
        value: widthMm,
        unit: 'mm',
        source: 'anticlastic bending, plastic Poisson ratio tending to 0.5',
        trust: 'mechanics',
      })
  }
}

/**
 * How much of its stretch the outside fibre uses up.
 *   outerStrain / (factor * elongation at break on 50 mm), factor 0.9 with a strap, 0.7 without
 * Source: common practice, no source. Screening.
 */
export function tearUtilisation(bent: BentTube, outerStrain: number, trace?: Trace): number {
  const utilisation = outerStrain / tearStrain(bent)
  trace?.step('tearUtilisation', {
    formula: 'outer strain / (factor * elongation at break on 50 mm)',
    inputs: [
      ['outer strain', outerStrain, '', 'outerStrain'],
      ['factor', bent.strap ? 0.9 : 0.7],
      ['elongation', bent.material.elongationPct, '%'],
    ],
    value: utilisation,
    unit: '',
    source: 'common practice, no source',
    trust: 'screening',
  })
  return utilisation
}

function tearStrain(bent: BentTube): number {
  return ((bent.strap ? 0.9 : 0.7) * bent.material.elongationPct) / 100
}

/** The smallest loaded centreline radius at which the outside fibre just holds, the neutral axis where it is. */
export function tearRadiusMm(bent: BentTube, neutralMm: number, trace?: Trace): number {
  const radiusMm = (bent.tube.heightMm / 2 - neutralMm) / tearStrain(bent) - neutralMm
  trace?.step('tearRadiusMm', {
    formula: '(h/2 - y_n) / (factor * elongation at break) - y_n',
    inputs: [
      ['h', bent.tube.heightMm, 'mm'],
      ['y_n', neutralMm, 'mm', 'neutralAxisShiftMm'],
      ['factor * elongation', tearStrain(bent)],
    ],
    value: radiusMm,
    unit: 'mm',
    source: 'the tear utilisation set to 1',
    trust: 'screening',
  })
  return radiusMm
}

/**
 * The textbook least radius from the reduction of area, centreline, mm; null where the reduction is not known.
 *   R/T = 50 / r - 1 on the inside radius, T = h
 * Source: Kalpakjian & Schmid, Manufacturing Engineering and Technology (bending of sheet). Screening.
 */
export function reductionRadiusMm(bent: BentTube): number | null {
  const { reductionOfAreaPct } = bent.material
  if (reductionOfAreaPct === undefined) return null
  return Math.max(50 / reductionOfAreaPct - 1, 0) * bent.tube.heightMm + bent.tube.heightMm / 2
}
