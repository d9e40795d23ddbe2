import type { BendInPress } from '@/lib/core/mechanics/bend-in-press'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'

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
export function bentSection(bent: BentTube, bend: BendInPress): BentSection {
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
  return {
    outerStrain,
    innerStrain,
    wallOutsideMm: wall(outerStrain, outerFactor),
    wallInsideMm: wall(innerStrain, innerFactor),
    widthOutsideMm: isRound ? null : bent.tube.widthMm * outerFactor,
    widthInsideMm: isRound ? null : bent.tube.widthMm * innerFactor,
  }
}

/**
 * How much of its stretch the outside fibre uses up.
 *   outerStrain / (factor * elongation at break on 50 mm), factor 0.9 with a strap, 0.7 without
 * Source: common practice, no source. Screening.
 */
export function tearUtilisation(bent: BentTube, outerStrain: number): number {
  return outerStrain / tearStrain(bent)
}

function tearStrain(bent: BentTube): number {
  return ((bent.strap ? 0.9 : 0.7) * bent.material.elongationPct) / 100
}

/** The smallest loaded centreline radius at which the outside fibre just holds, the neutral axis where it is. */
export function tearRadiusMm(bent: BentTube, neutralMm: number): number {
  return (bent.tube.heightMm / 2 - neutralMm) / tearStrain(bent) - neutralMm
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
