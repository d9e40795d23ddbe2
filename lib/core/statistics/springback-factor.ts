import { type NormalBelief, type UpdatedBelief, updateNormal } from '@/lib/core/statistics/normal-update'

/** What the model says before a shop has bent anything. */
export const firstBelief: NormalBelief = { mean: 1, sd: 0.15 }

/** How far one section and method may differ from its material's mean. */
export const sectionSd = 0.05

/** The angles of one bend that a springback factor is read from. */
export interface SpringbackReading {
  readonly loadedAngleDeg: number
  readonly measuredFinalAngleDeg: number
  /** The model's final angle with factor 1, from the same loaded angle. */
  readonly modelFinalAngleDeg: number
  /** Standard uncertainty of the angle gauge. */
  readonly gaugeSdDeg: number
  /** How much bends made alike differ, as a share of springback; absent: not counted. */
  readonly scatterSd?: number
}

/** The springback factor one bend shows, and how far it may be off. */
export interface FactorObservation {
  readonly value: number
  readonly sd: number
}

/**
 * The springback factor that one measured bend shows.
 *   c = (loaded - measured final) / (loaded - model final at c = 1);   sd = gauge sd / (loaded - model final), with scatter added in squares
 * Source: definition of the factor as measured over computed springback. Valid: model springback above zero, gauge spread above zero.
 */
export function observedFactor(reading: SpringbackReading): FactorObservation {
  const modelSpringbackDeg = reading.loadedAngleDeg - reading.modelFinalAngleDeg
  if (!(modelSpringbackDeg > 0)) {
    throw new RangeError(`The model springs back by more than zero degrees, not ${modelSpringbackDeg}.`)
  }
  if (!(reading.gaugeSdDeg > 0)) {
    throw new RangeError(`An angle gauge is uncertain by more than zero degrees, not ${reading.gaugeSdDeg}.`)
  }
  return {
    value: (reading.loadedAngleDeg - reading.measuredFinalAngleDeg) / modelSpringbackDeg,
    sd: Math.hypot(reading.gaugeSdDeg / modelSpringbackDeg, reading.scatterSd ?? 0),
  }
}

/** Bends of one material, grouped by section and method. */
export interface FactorGroup {
  /** Section and method, as one name. */
  readonly key: string
  readonly observations: readonly FactorObservation[]
}

export interface LearnedFactor extends UpdatedBelief {
  /** What was believed before this section and method was bent. */
  readonly prior: NormalBelief
  readonly priorFrom: 'model' | 'material'
  /** Bends of the same section and method. */
  readonly bendCount: number
  /** Bends of the same material in other sections and methods. */
  readonly materialBendCount: number
  readonly text: string
}

/**
 * The springback factor of a section and method of a material, from all bends of that material.
 *   groups about the material's mean with sd 0.05, that mean about 1 with sd 0.15;
 *   a group's prior is the material's mean as the other groups show it, sd sqrt(0.05^2 + its own spread squared); without other groups 1 with 0.15
 * Source: two-level normal model, A. Gelman et al., Bayesian Data Analysis, 3rd ed., section 5.4. Valid: one material, one lot's temper; a new
 * heat, wall, die or temper starts a new group.
 */
export function learnFactor(groups: readonly FactorGroup[], key: string): LearnedFactor {
  const own = groups.find((group) => group.key === key)?.observations ?? []
  const others = groups.filter((group) => group.key !== key)
  const materialBendCount = others.reduce((sum, { observations }) => sum + observations.length, 0)
  const material = materialBelief(others)
  const prior = material ? { mean: material.mean, sd: Math.hypot(material.sd, sectionSd) } : firstBelief
  return {
    ...updateNormal(prior, own),
    prior,
    priorFrom: material ? 'material' : 'model',
    bendCount: own.length,
    materialBendCount,
    text: evidenceText(own.length, materialBendCount),
  }
}

/** What the groups say of their material's mean; null without a bend. */
export function materialBelief(groups: readonly FactorGroup[]): UpdatedBelief | null {
  const bent = groups.filter(({ observations }) => observations.length > 0)
  if (bent.length === 0) return null
  const means = bent.map(({ observations }) => {
    const precision = observations.reduce((sum, { sd }) => sum + 1 / sd ** 2, 0)
    const value = observations.reduce((sum, one) => sum + one.value / one.sd ** 2, 0) / precision
    return { value, sd: Math.hypot(Math.sqrt(1 / precision), sectionSd) }
  })
  return updateNormal(firstBelief, means)
}

function evidenceText(bendCount: number, materialBendCount: number): string {
  const own =
    bendCount === 1 ? '1 bend of this section and method' : `${bendCount} bends of this section and method`
  if (materialBendCount === 0) return bendCount === 0 ? 'the model alone, no bend yet' : own
  const other = materialBendCount === 1 ? '1 other bend' : `${materialBendCount} other bends`
  return bendCount === 0 ? `${other} of this material` : `${own} and ${other} of this material`
}
