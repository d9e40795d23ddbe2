import { logGamma } from '@/lib/core/statistics/gamma'

/**
 * Regularised incomplete beta function: the probability that a Beta(a, b) variable is at most x.
 *   Lentz continued fraction, on the side of the mean where it converges fast.
 * Source: Abramowitz & Stegun 26.5.8; method of Press et al., Numerical Recipes, section 6.4. Valid: a, b > 0.
 */
export function betaCdf(x: number, a: number, b: number): number {
  if (!(a > 0 && b > 0))
    throw new RangeError(`The two counts of a beta distribution are above zero, not ${a} and ${b}.`)
  if (x <= 0) return 0
  if (x >= 1) return 1
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta(a, b))
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(1 - x, b, a)) / b
}

/**
 * Density of a Beta(a, b) variable.
 *   x^(a-1) (1-x)^(b-1) / B(a, b)
 * Source: definition. Valid: a, b > 0; 0 < x < 1.
 */
export function betaDensity(x: number, a: number, b: number): number {
  if (x <= 0 || x >= 1) return 0
  return Math.exp((a - 1) * Math.log(x) + (b - 1) * Math.log1p(-x) - logBeta(a, b))
}

/**
 * The value that a share p of Beta(a, b) draws stays below.
 *   root of betaCdf(x) = p by bisection, 54 halvings of 0 to 1.
 * Source: definition. Valid: 0 <= p <= 1; absolute error below 1e-15.
 */
export function betaQuantile(p: number, a: number, b: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A share of draws lies between 0 and 1, not ${p}.`)
  let low = 0
  let high = 1
  for (let i = 0; i < 54; i += 1) {
    const middle = (low + high) / 2
    if (betaCdf(middle, a, b) < p) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/**
 * Natural logarithm of the complete beta function B(a, b).
 * Source: Abramowitz & Stegun 6.2.2. Valid: a, b > 0.
 */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b)
}

function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300
  const nonZero = (value: number): number => (Math.abs(value) < tiny ? tiny : value)
  let c = 1
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1))
  let h = d
  for (let m = 1; m < 10_000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / nonZero(1 + even * d)
    c = nonZero(1 + even / c)
    h *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / nonZero(1 + odd * d)
    c = nonZero(1 + odd / c)
    const step = d * c
    h *= step
    if (Math.abs(step - 1) < 1e-16) break
  }
  return h
}
