import { risingRoot } from '@/lib/core/statistics/rising-root'

const lanczos = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const

/**
 * Natural logarithm of the gamma function.
 *   Lanczos approximation, g = 7, nine terms; reflection below one half.
 * Source: C. Lanczos, SIAM J. Numer. Anal. B 1 (1964) 86; coefficients of P. Godfrey. Valid: x > 0, relative error below 1e-14.
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`The gamma function is wanted above zero, not at ${x}.`)
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x)
  const shifted = x - 1
  let series: number = lanczos[0]
  for (let i = 1; i < lanczos.length; i += 1) series += (lanczos[i] ?? 0) / (shifted + i)
  const t = shifted + 7.5
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(t) - t + Math.log(series)
}

/**
 * Regularised lower incomplete gamma function P(a, x).
 *   series for x < a + 1, Lentz continued fraction above.
 * Source: Abramowitz & Stegun 6.5.29 and 6.5.31; method of Press et al., Numerical Recipes, section 6.2. Valid: a > 0, x >= 0.
 */
export function lowerGammaFraction(a: number, x: number): number {
  if (!(a > 0)) throw new RangeError(`The shape of a gamma distribution is above zero, not ${a}.`)
  if (x <= 0) return 0
  const front = Math.exp(-x + a * Math.log(x) - logGamma(a))
  return x < a + 1 ? front * gammaSeries(a, x) : 1 - front * gammaFraction(a, x)
}

/**
 * Probability that a chi-square variable is at most x.
 *   P(df / 2, x / 2)
 * Source: Abramowitz & Stegun 26.4.19. Valid: df > 0.
 */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  return lowerGammaFraction(degreesOfFreedom / 2, x / 2)
}

/**
 * The chi-square value that a share p of draws stays below.
 *   root of chiSquareCdf(x) = p by bisection.
 * Source: definition. Valid: 0 < p < 1.
 */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`A share of draws lies between 0 and 1, not ${p}.`)
  return risingRoot((x) => chiSquareCdf(x, degreesOfFreedom), p)
}

function gammaSeries(a: number, x: number): number {
  let term = 1 / a
  let sum = term
  for (let n = 1; n < 10_000; n += 1) {
    term *= x / (a + n)
    sum += term
    if (term < sum * 1e-17) break
  }
  return sum
}

/** Above x = a + 1 no denominator comes near zero: step i has at least i + 1. */
function gammaFraction(a: number, x: number): number {
  let b = x + 1 - a
  let c = Number.POSITIVE_INFINITY
  let d = 1 / b
  let h = d
  for (let i = 1; i < 10_000; i += 1) {
    const an = -i * (i - a)
    b += 2
    d = 1 / (an * d + b)
    c = b + an / c
    const step = d * c
    h *= step
    if (Math.abs(step - 1) < 1e-16) break
  }
  return h
}
