/** What is believed of a quantity: normal about a mean, in the quantity's unit. */
export interface NormalBelief {
  readonly mean: number
  readonly sd: number
}

/** An observation of the quantity and how far it may be off. */
export interface NormalObservation {
  readonly value: number
  readonly sd: number
}

export interface UpdatedBelief extends NormalBelief {
  /** Share of the answer that comes from the observations: 0 all prior, 1 all data. */
  readonly dataWeight: number
  readonly observationCount: number
}

/**
 * A normal belief after observations of known spread.
 *   1 / s1^2 = 1 / s0^2 + sum 1 / sigma_i^2;   m1 = s1^2 ( m0 / s0^2 + sum y_i / sigma_i^2 )
 * Source: W. M. Bolstad, Introduction to Bayesian Statistics, chapter 11. Valid: all spreads above zero; the order does not matter.
 */
export function updateNormal(prior: NormalBelief, observations: readonly NormalObservation[]): UpdatedBelief {
  requireSd(prior.sd)
  let precision = 1 / prior.sd ** 2
  let weighted = prior.mean * precision
  let dataPrecision = 0
  for (const { value, sd } of observations) {
    requireSd(sd)
    const weight = 1 / sd ** 2
    precision += weight
    dataPrecision += weight
    weighted += value * weight
  }
  return {
    mean: weighted / precision,
    sd: Math.sqrt(1 / precision),
    dataWeight: dataPrecision / precision,
    observationCount: observations.length,
  }
}

/**
 * Spread of the next observation.
 *   sqrt( s1^2 + sigma^2 )
 * Source: as `updateNormal`. Valid: spread of one observation zero or more.
 */
export function predictiveSd(belief: NormalBelief, observationSd: number): number {
  return Math.hypot(belief.sd, observationSd)
}

function requireSd(sd: number): void {
  if (!(sd > 0 && Number.isFinite(sd))) throw new RangeError(`A spread is above zero, not ${sd}.`)
}
