import { betaCdf } from '@/lib/core/statistics/beta'
import { logGamma } from '@/lib/core/statistics/gamma'

/**
 * Probability of exactly k good ends in n independent starts.
 *   C(n, k) p^k (1-p)^(n-k)
 * Source: definition of the binomial distribution. Valid: whole n >= k >= 0, 0 <= p <= 1.
 */
export function binomialProbability(count: number, trials: number, p: number): number {
  requireShare(p)
  if (count < 0 || count > trials) return 0
  if (p === 0) return count === 0 ? 1 : 0
  if (p === 1) return count === trials ? 1 : 0
  return Math.exp(logChoose(trials, count) + count * Math.log(p) + (trials - count) * Math.log1p(-p))
}

/**
 * Probability of at most k good ends in n independent starts.
 *   I(1-p; n-k, k+1)
 * Source: Abramowitz & Stegun 26.5.24. Valid: whole n >= 0, 0 <= p <= 1.
 */
export function binomialCdf(count: number, trials: number, p: number): number {
  requireShare(p)
  if (count < 0) return 0
  if (count >= trials) return 1
  return betaCdf(1 - p, trials - count, count + 1)
}

/**
 * Probability that the Q-th good piece comes at exactly the n-th start.
 *   C(n-1, Q-1) p^Q (1-p)^(n-Q)
 * Source: definition of the negative binomial distribution, counted in starts. Valid: whole n >= Q >= 1, 0 < p <= 1.
 */
export function startsProbability(starts: number, goodPieces: number, p: number): number {
  requireShare(p)
  if (starts < goodPieces) return 0
  if (p === 1) return starts === goodPieces ? 1 : 0
  return Math.exp(
    logChoose(starts - 1, goodPieces - 1) + goodPieces * Math.log(p) + (starts - goodPieces) * Math.log1p(-p),
  )
}

/**
 * Probability that n starts are enough for Q good pieces.
 *   P[Binomial(n, p) >= Q] = I(p; Q, n-Q+1)
 * Source: Abramowitz & Stegun 26.5.24. Valid: whole n, Q >= 1, 0 <= p <= 1.
 */
export function startsCdf(starts: number, goodPieces: number, p: number): number {
  requireShare(p)
  if (starts < goodPieces) return 0
  return betaCdf(p, goodPieces, starts - goodPieces + 1)
}

/**
 * Natural logarithm of the number of ways to choose k of n.
 * Source: definition, by the gamma function. Valid: n >= k >= 0.
 */
export function logChoose(n: number, k: number): number {
  if (k < 0 || k > n) throw new RangeError(`${k} cannot be chosen out of ${n}.`)
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1)
}

function requireShare(p: number): void {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A probability lies between 0 and 1, not ${p}.`)
}
