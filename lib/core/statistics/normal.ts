import { lowerGammaFraction } from '@/lib/core/statistics/gamma'

/**
 * Density of the standard normal distribution.
 *   exp(-z^2 / 2) / sqrt(2 pi)
 * Source: definition.
 */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)
}

/**
 * Probability that a standard normal variable is at most z.
 *   1/2 (1 + erf(z / sqrt 2)), erf(x) = P(1/2, x^2); the tail is taken from the upper side so that it keeps its digits.
 * Source: Abramowitz & Stegun 7.1.1 and 6.5.16.
 */
export function normalCdf(z: number): number {
  if (z > 0) return 1 - normalCdf(-z)
  if (z > -5) return 0.5 * (1 - lowerGammaFraction(0.5, 0.5 * z * z))
  let fraction = 0
  for (let k = 60; k >= 1; k -= 1) fraction = k / (-z + fraction)
  return normalDensity(z) / (-z + fraction)
}

/**
 * The standard normal value that a share p of draws stays below.
 *   rational approximation (P. J. Acklam, relative error 1.15e-9), then a Newton step on the exact distribution, which doubles its nine digits.
 * Source: P. J. Acklam, algorithm for the inverse normal cumulative distribution (2003). Valid: 0 < p < 1.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`A share of draws lies between 0 and 1, not ${p}.`)
  const z = roughNormalQuantile(p)
  return z - (normalCdf(z) - p) / normalDensity(z)
}

/**
 * The standard normal quantile to nine digits, without the polishing step: what a simulation of thousands of draws uses.
 * Source: as `normalQuantile`. Valid: 0 < p < 1, relative error below 1.15e-9.
 */
export function roughNormalQuantile(p: number): number {
  if (p < 0.02425) return tail(Math.sqrt(-2 * Math.log(p)))
  if (p > 1 - 0.02425) return -tail(Math.sqrt(-2 * Math.log(1 - p)))
  const q = p - 0.5
  const r = q * q
  const top =
    ((((-39.69683028665376 * r + 220.9460984245205) * r - 275.9285104469687) * r + 138.357751867269) * r -
      30.66479806614716) *
      r +
    2.506628277459239
  const bottom =
    ((((-54.47609879822406 * r + 161.5858368580409) * r - 155.6989798598866) * r + 66.80131188771972) * r -
      13.28068155288572) *
      r +
    1
  return (top * q) / bottom
}

function tail(q: number): number {
  const top =
    ((((-0.007784894002430293 * q - 0.3223964580411365) * q - 2.400758277161838) * q - 2.549732539343734) *
      q +
      4.374664141464968) *
      q +
    2.938163982698783
  const bottom =
    (((0.007784695709041462 * q + 0.3224671290700398) * q + 2.445134137142996) * q + 3.754408661907416) * q +
    1
  return top / bottom
}
