import { betaCdf } from '@/lib/core/statistics/beta'
import { risingRoot } from '@/lib/core/statistics/rising-root'

/**
 * Probability that Student's t is at most x.
 *   1 - I(df / (df + x^2); df/2, 1/2) / 2 for x >= 0, mirrored below.
 * Source: Abramowitz & Stegun 26.7.1 with 26.5.27. Valid: df > 0.
 */
export function studentTCdf(x: number, degreesOfFreedom: number): number {
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(`Degrees of freedom are above zero, not ${degreesOfFreedom}.`)
  }
  const beyond = 0.5 * betaCdf(degreesOfFreedom / (degreesOfFreedom + x * x), degreesOfFreedom / 2, 0.5)
  return x >= 0 ? 1 - beyond : beyond
}

/**
 * The value of Student's t that a share p of draws stays below.
 *   root of studentTCdf(x) = p by bisection, mirrored below one half.
 * Source: definition. Valid: 0 < p < 1, df > 0.
 */
export function studentTQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`A share of draws lies between 0 and 1, not ${p}.`)
  if (p < 0.5) return -studentTQuantile(1 - p, degreesOfFreedom)
  return risingRoot((x) => studentTCdf(x, degreesOfFreedom), p)
}
