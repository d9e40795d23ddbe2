import { betaCdf } from '@/lib/core/statistics/beta'
import { chiSquareQuantile, logGamma } from '@/lib/core/statistics/gamma'
import { normalCdf, normalQuantile } from '@/lib/core/statistics/normal'
import { risingRoot } from '@/lib/core/statistics/rising-root'

/** The share of all pieces an interval is to hold, and how sure one is to be of it. */
export interface Coverage {
  readonly share: number
  readonly confidence: number
}

/**
 * Factor k of the interval mean -+ k s that holds a share of all pieces.
 *   k = z((1+p)/2) sqrt( (n-1)(1 + 1/n) / chi2(1-g, n-1) )
 * Source: W. G. Howe, J. Am. Stat. Assoc. 64 (1969) 610; NIST/SEMATECH e-Handbook 7.2.6.3. Valid: n >= 2; within 2 percent of the exact factor from n = 4.
 */
export function twoSidedToleranceFactor(count: number, coverage: Coverage): number {
  requireCoverage(count, coverage)
  const z = normalQuantile((1 + coverage.share) / 2)
  return (
    z * Math.sqrt(((count - 1) * (1 + 1 / count)) / chiSquareQuantile(1 - coverage.confidence, count - 1))
  )
}

/**
 * Factor k of the bound mean + k s (or mean - k s) that a share of all pieces stays within.
 *   k = t'(g; n-1, z_p sqrt n) / sqrt n, t' the quantile of the noncentral t distribution
 * Source: NIST/SEMATECH e-Handbook 7.2.6.3, exact form. Valid: 2 <= n <= 300.
 */
export function oneSidedToleranceFactor(count: number, coverage: Coverage): number {
  requireCoverage(count, coverage)
  const shift = normalQuantile(coverage.share) * Math.sqrt(count)
  return risingRoot((t) => noncentralTCdf(t, count - 1, shift), coverage.confidence) / Math.sqrt(count)
}

/**
 * The one-sided factor by formula, without the noncentral t distribution.
 *   a = 1 - z_g^2 / (2(n-1)), b = z_p^2 - z_g^2 / n, k = (z_p + sqrt(z_p^2 - a b)) / a
 * Source: M. G. Natrella, Experimental Statistics (NBS Handbook 91), as in e-Handbook 7.2.6.3. Valid: n large enough that a is above zero.
 */
export function approximateOneSidedFactor(count: number, coverage: Coverage): number {
  requireCoverage(count, coverage)
  const zShare = normalQuantile(coverage.share)
  const zConfidence = normalQuantile(coverage.confidence)
  const a = 1 - zConfidence ** 2 / (2 * (count - 1))
  const b = zShare ** 2 - zConfidence ** 2 / count
  if (!(a > 0)) throw new RangeError(`The formula needs more than ${count} pieces at this confidence.`)
  return (zShare + Math.sqrt(zShare ** 2 - a * b)) / a
}

/**
 * Probability that a noncentral t variable is at most t.
 *   Phi(-d) + 1/2 sum over j of [ P_j I(x; j+1/2, v/2) + Q_j I(x; j+1, v/2) ],  x = t^2 / (v + t^2), P and Q the Poisson-like weights of d^2/2
 * Source: R. V. Lenth, Applied Statistics 38 (1989) 185, algorithm AS 243. Valid: t >= 0, |d| below 37.
 */
export function noncentralTCdf(t: number, degreesOfFreedom: number, shift: number): number {
  if (!(t >= 0)) throw new RangeError(`The distribution is worked out for t from 0 up, not ${t}.`)
  if (Math.abs(shift) > 37)
    throw new RangeError(`The distribution is worked out for shifts up to 37, not ${shift}.`)
  const x = (t * t) / (degreesOfFreedom + t * t)
  if (shift === 0) return 0.5 + 0.5 * betaCdf(x, 0.5, degreesOfFreedom / 2)
  const half = (shift * shift) / 2
  const reach = Math.ceil(half + 12 * Math.sqrt(half) + 40)
  let sum = 0
  for (let j = 0; j <= reach; j += 1) {
    const even = Math.exp(-half + j * Math.log(half) - logGamma(j + 1))
    const odd = (shift / Math.SQRT2) * Math.exp(-half + j * Math.log(half) - logGamma(j + 1.5))
    if (even + Math.abs(odd) < 1e-18) continue
    sum += even * betaCdf(x, j + 0.5, degreesOfFreedom / 2) + odd * betaCdf(x, j + 1, degreesOfFreedom / 2)
  }
  return Math.min(1, normalCdf(-shift) + sum / 2)
}

function requireCoverage(count: number, { share, confidence }: Coverage): void {
  if (!Number.isInteger(count) || count < 2)
    throw new RangeError(`A tolerance interval needs two pieces or more, not ${count}.`)
  if (!(share > 0 && share < 1 && confidence > 0 && confidence < 1)) {
    throw new RangeError('The share held and the confidence lie between 0 and 1.')
  }
}
