import { betaQuantile } from '@/lib/core/statistics/beta'

/** What is believed of a first-pass yield. */
export interface YieldBelief {
  readonly meanFraction: number
  readonly sdFraction: number
  readonly p10Fraction: number
  readonly p90Fraction: number
  readonly goodCount: number
  readonly badCount: number
  readonly text: string
}

/**
 * First-pass yield after good and bad first tries.
 *   Beta(1 + good, 1 + bad): mean a / (a + b), variance a b / ((a + b)^2 (a + b + 1))
 * Source: Laplace's rule of succession, flat prior Beta(1, 1). Valid: counts from zero.
 */
export function yieldBelief(goodCount: number, badCount: number): YieldBelief {
  for (const count of [goodCount, badCount]) {
    if (!Number.isInteger(count) || count < 0) throw new RangeError(`Tries are counted from 0, not ${count}.`)
  }
  const a = 1 + goodCount
  const b = 1 + badCount
  const tries = goodCount + badCount
  return {
    meanFraction: a / (a + b),
    sdFraction: Math.sqrt((a * b) / ((a + b) ** 2 * (a + b + 1))),
    p10Fraction: betaQuantile(0.1, a, b),
    p90Fraction: betaQuantile(0.9, a, b),
    goodCount,
    badCount,
    text:
      tries === 0
        ? 'no first try yet'
        : `${goodCount} good of ${tries} first ${tries === 1 ? 'try' : 'tries'}`,
  }
}
