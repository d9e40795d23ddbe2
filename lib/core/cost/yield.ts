import { startsCdf } from '@/lib/core/statistics/counting'

/**
 * Starts to expect for a number of good pieces.
 *   E = Q / p
 * Source: mean of the negative binomial distribution counted in starts. Valid: Q >= 0, 0 < p <= 1.
 */
export function expectedStarts(goodPieces: number, yieldFraction: number): number {
  requireYield(yieldFraction)
  return goodPieces / yieldFraction
}

/**
 * Variance of the starts for a number of good pieces.
 *   Q (1 - p) / p^2
 * Source: variance of the negative binomial distribution. Valid: Q >= 0, 0 < p <= 1.
 */
export function startsVariance(goodPieces: number, yieldFraction: number): number {
  requireYield(yieldFraction)
  return (goodPieces * (1 - yieldFraction)) / yieldFraction ** 2
}

/**
 * The least number of starts that is enough with a given confidence.
 *   smallest n with P[Binomial(n, p) >= Q] >= C
 * Source: percentile of the negative binomial distribution. Valid: whole Q >= 1, 0 < p <= 1, 0 < C < 1.
 */
export function startsForConfidence(goodPieces: number, yieldFraction: number, confidence: number): number {
  requireYield(yieldFraction)
  if (!Number.isInteger(goodPieces) || goodPieces < 1) {
    throw new RangeError(`Good pieces are counted from 1, not ${goodPieces}.`)
  }
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`A confidence lies between 0 and 1, not ${confidence}.`)
  }
  const enough = (starts: number): boolean =>
    startsCdf(starts, goodPieces, yieldFraction) >= confidence - 1e-12
  let low = goodPieces - 1
  let high = Math.ceil(goodPieces / yieldFraction)
  while (!enough(high)) {
    low = high
    high *= 2
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (enough(middle)) high = middle
    else low = middle
  }
  return high
}

/**
 * Share of pieces that pass every step the first time.
 *   product of the steps' yields
 * Source: rolled throughput yield, M. Harry & R. Schroeder, Six Sigma (2000). Valid: each 0..1.
 */
export function rolledYield(stepYieldFractions: readonly number[]): number {
  return stepYieldFractions.reduce((product, stepYield) => {
    if (!(stepYield >= 0 && stepYield <= 1))
      throw new RangeError(`A yield lies between 0 and 1, not ${stepYield}.`)
    return product * stepYield
  }, 1)
}

/**
 * Yield of a step from its defects per unit.
 *   y = exp(-dpu)
 * Source: Poisson probability of no defect. Valid: dpu >= 0.
 */
export function yieldFromDefectsPerUnit(defectsPerUnit: number): number {
  if (!(defectsPerUnit >= 0))
    throw new RangeError(`Defects per unit are zero or more, not ${defectsPerUnit}.`)
  return Math.exp(-defectsPerUnit)
}

export interface YieldStep {
  readonly costCents: number
  readonly yieldFraction: number
}

/**
 * Cost of one good piece through serial steps, the money of a step being spent before its scrap is found.
 *   sum over i of c_i / product of y_j for j >= i
 * Source: expected value; each good piece needs 1 / (y_i .. y_last) entries into step i. Valid: yields above 0.
 */
export function costPerGoodPieceCents(steps: readonly YieldStep[]): number {
  let onward = 1
  let sum = 0
  for (const step of [...steps].reverse()) {
    requireYield(step.yieldFraction)
    onward *= step.yieldFraction
    sum += step.costCents / onward
  }
  return sum
}

/** The choice of how many to start in one run, and the cost of choosing best. */
export interface RejectAllowance {
  readonly startCount: number
  readonly expectedCostCents: number
}

/**
 * How many to start in each of a few runs when one good piece is wanted and a run costs a set-up.
 *   f_n = min over x of [ set-up (x > 0) + x * each + (1 - p)^x * f_(n+1) ],  f after the last run = the penalty
 * Source: reject allowance problem, Hillier & Lieberman, Introduction to Operations Research, dynamic programming chapter. Valid: 0 < p < 1.
 */
export function rejectAllowance(problem: {
  readonly yieldFraction: number
  readonly setUpCents: number
  readonly eachCents: number
  readonly penaltyCents: number
  readonly runCount: number
  readonly mostStartsPerRun?: number
}): RejectAllowance[] {
  requireYield(problem.yieldFraction)
  const most = problem.mostStartsPerRun ?? 50
  const plan: RejectAllowance[] = []
  let afterCents = problem.penaltyCents
  for (let run = problem.runCount; run >= 1; run -= 1) {
    let best: RejectAllowance = { startCount: 0, expectedCostCents: afterCents }
    for (let x = 1; x <= most; x += 1) {
      const cost = problem.setUpCents + x * problem.eachCents + (1 - problem.yieldFraction) ** x * afterCents
      if (cost < best.expectedCostCents - 1e-9) best = { startCount: x, expectedCostCents: cost }
    }
    plan.unshift(best)
    afterCents = best.expectedCostCents
  }
  return plan
}

function requireYield(yieldFraction: number): void {
  if (!(yieldFraction > 0 && yieldFraction <= 1)) {
    throw new RangeError(`A first-pass yield lies above 0 and up to 1, not ${yieldFraction}.`)
  }
}
