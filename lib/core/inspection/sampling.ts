import { logChoose } from '@/lib/core/statistics/counting'

export type InspectionLevel = 'I' | 'II' | 'III' | 'S-1'

const lotUpTo = [8, 15, 25, 50, 90, 150, 280, 500] as const

const letters: Readonly<Record<InspectionLevel, readonly string[]>> = {
  I: ['A', 'A', 'B', 'C', 'C', 'D', 'E', 'F'],
  II: ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'],
  III: ['B', 'C', 'D', 'E', 'F', 'G', 'H', 'J'],
  'S-1': ['A', 'A', 'A', 'A', 'B', 'B', 'B', 'B'],
}

const letterSizes: Readonly<Record<string, number>> = {
  A: 2,
  B: 3,
  C: 5,
  D: 8,
  E: 13,
  F: 20,
  G: 32,
  H: 50,
  J: 80,
  K: 125,
}

/** The acceptable quality limit at which each letter's normal plan accepts on zero bad pieces, in percent. */
export const zeroAcceptanceAqlPct: Readonly<Record<string, number>> = {
  A: 6.5,
  B: 4,
  C: 2.5,
  D: 1.5,
  E: 1,
  F: 0.65,
}

export type SamplePlan =
  | { readonly kind: 'all'; readonly sampleCount: number; readonly letter: string | null }
  | { readonly kind: 'sample'; readonly sampleCount: number; readonly letter: string }

/**
 * How many pieces of a lot to inspect.
 *   code letter by lot size and level, sample size by letter; the whole lot where the sample reaches it
 * Source: ISO 2859-1:1999, tables 1 and 2-A (identical IS 2500-1:2000). Valid: lots of 1 to 500.
 */
export function samplePlan(lotCount: number, level: InspectionLevel = 'II'): SamplePlan {
  if (!Number.isInteger(lotCount) || lotCount < 1) {
    throw new RangeError(`A lot is counted from one piece, not ${lotCount}.`)
  }
  if (lotCount > 500)
    throw new RangeError(`The table here ends at lots of 500; ${lotCount} needs the standard itself.`)
  if (lotCount === 1) return { kind: 'all', sampleCount: 1, letter: null }
  const letter = letters[level][lotUpTo.findIndex((limit) => lotCount <= limit)] ?? 'A'
  const sampleCount = letterSizes[letter] ?? lotCount
  return sampleCount >= lotCount
    ? { kind: 'all', sampleCount: lotCount, letter }
    : { kind: 'sample', sampleCount, letter }
}

/**
 * Sample that must all be good to show a reliability, from a lot without end.
 *   n = ceil( ln(1 - C) / ln R )
 * Source: success-run theorem (95/95 gives 59). Valid: 0 < C < 1, 0 < R < 1. A Bayesian form with a flat prior asks one fewer.
 */
export function successRunCount(confidence: number, reliability: number): number {
  requireShare(confidence, 'A confidence')
  requireShare(reliability, 'A reliability')
  return Math.ceil(Math.log(1 - confidence) / Math.log(reliability) - 1e-9)
}

/**
 * Probability that a sample from a lot holds none of its bad pieces.
 *   C(N - D, n) / C(N, n)
 * Source: hypergeometric distribution. Valid: whole 0 <= D, n <= N.
 */
export function missProbability(lotCount: number, badCount: number, sampleCount: number): number {
  if (badCount > lotCount || sampleCount > lotCount || badCount < 0 || sampleCount < 0) {
    throw new RangeError('Bad pieces and sample are both part of the lot.')
  }
  if (sampleCount > lotCount - badCount) return 0
  return Math.exp(logChoose(lotCount - badCount, sampleCount) - logChoose(lotCount, sampleCount))
}

/**
 * The smallest sample from a lot that catches one of its bad pieces with a given confidence.
 *   least n with 1 - missProbability >= C
 * Source: hypergeometric distribution. Valid: one bad piece or more. In lots below about 25 it is nearly the whole lot: inspect every bend.
 */
export function sampleToCatch(lotCount: number, badCount: number, confidence: number): number {
  requireShare(confidence, 'A confidence')
  if (badCount < 1) throw new RangeError('There is nothing to catch in a lot without bad pieces.')
  let sampleCount = 1
  while (1 - missProbability(lotCount, badCount, sampleCount) < confidence - 1e-12) sampleCount += 1
  return sampleCount
}

function requireShare(value: number, what: string): void {
  if (!(value > 0 && value < 1)) throw new RangeError(`${what} lies between 0 and 1, not ${value}.`)
}
