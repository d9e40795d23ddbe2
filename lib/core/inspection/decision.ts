import { normalCdf } from '@/lib/core/statistics/normal'

export type Verdict = 'pass' | 'fail' | 'cannotSay'

/** The plain words of a verdict. */
export const verdictWords: Readonly<Record<Verdict, string>> = {
  pass: 'pass',
  fail: 'fail',
  cannotSay: 'cannot say',
}

/**
 * How the gauge's uncertainty is counted: `simple` ignores it; `guarded` keeps g = factor * U inside the tolerance before saying pass and
 * outside before saying fail.
 */
export type DecisionRule =
  | { readonly kind: 'simple' }
  | { readonly kind: 'guarded'; readonly guardFactor: number }

/**
 * Guard of the whole expanded uncertainty.
 * Source: ISO 14253-1:1998 and 2013, g = U with k = 2 (rule text from memory).
 */
export const fullGuard: DecisionRule = { kind: 'guarded', guardFactor: 1 }

/**
 * Guard for 95 percent conformance probability one-sided, g = 1.645 u = 0.8224 U.
 * Source: ISO 14253-1:2017 default (rule text from memory); JCGM 106:2012.
 */
export const ninetyFiveGuard: DecisionRule = { kind: 'guarded', guardFactor: 1.6448536269514722 / 2 }

/** A rule in the words to print on a record, since a verdict means nothing without it. */
export function decisionRuleText(rule: DecisionRule): string {
  if (rule.kind === 'simple')
    return 'simple acceptance: the measured value against the tolerance, gauge uncertainty not counted'
  const factor = Number(rule.guardFactor.toPrecision(4))
  return `guarded (ISO 14253-1): pass and fail both keep ${factor} of the gauge\u2019s expanded uncertainty away from the limit`
}

export interface Measured {
  readonly value: number
  /** Absent where the tolerance has one side only. */
  readonly lower?: number
  readonly upper?: number
  /** Expanded uncertainty of the gauge, k = 2, in the unit of the value. */
  readonly expandedUncertainty: number
  readonly rule: DecisionRule
}

/**
 * Whether a measured value conforms.
 *   guarded: pass in L + g <= y <= U - g, fail for y < L - g or y > U + g, else cannot say;  simple: g = 0
 * Source: ISO 14253-1 decision rules. Valid: a limit on one side at least, uncertainty zero or more.
 */
export function judge(measured: Measured): Verdict {
  const { value } = measured
  const { lower, upper } = requireLimits(measured)
  const guard = measured.rule.kind === 'simple' ? 0 : measured.rule.guardFactor * measured.expandedUncertainty
  // decimal readings such as 89.5 against 89 + 0.5 must not fail on the last bit of a float
  const slack = 1e-9 * Math.max(1, Math.abs(value))
  if (value < lower - guard - slack || value > upper + guard + slack) return 'fail'
  return value >= lower + guard - slack && value <= upper - guard + slack ? 'pass' : 'cannotSay'
}

/**
 * Probability that the true value lies in the tolerance.
 *   Phi((U - y) / u) - Phi((L - y) / u),  u = expanded uncertainty / 2
 * Source: JCGM 106:2012, 7.2, normal measurement, nothing known beforehand. Valid: uncertainty zero or more.
 */
export function conformanceProbability(measured: Omit<Measured, 'rule'>): number {
  const { lower, upper } = requireLimits(measured)
  const u = measured.expandedUncertainty / 2
  if (u === 0) return measured.value >= lower && measured.value <= upper ? 1 : 0
  return normalCdf((upper - measured.value) / u) - normalCdf((lower - measured.value) / u)
}

/** The zone in which a guarded rule says pass; null where the uncertainty leaves none. */
export function acceptanceZone(measured: Omit<Measured, 'value'>): { lower: number; upper: number } | null {
  const { lower, upper } = requireLimits({ ...measured, value: 0 })
  const guard = measured.rule.kind === 'simple' ? 0 : measured.rule.guardFactor * measured.expandedUncertainty
  return lower + guard <= upper - guard ? { lower: lower + guard, upper: upper - guard } : null
}

/**
 * Standard uncertainty of a gauge from its resolution and its stated limit of error.
 *   sqrt( (r / sqrt 12)^2 + (a / sqrt 3)^2 + others^2 )
 * Source: GUM (JCGM 100:2008) 4.3.7 and F.2.2.1, type B. Valid: all zero or more; expanded uncertainty is twice it.
 */
export function gaugeStandardUncertainty(gauge: {
  readonly resolution: number
  readonly limitOfError: number
  readonly otherStandardUncertainties?: readonly number[]
}): number {
  if (!(gauge.resolution >= 0 && gauge.limitOfError >= 0)) {
    throw new RangeError('A gauge\u2019s resolution and limit of error are zero or more.')
  }
  const others = gauge.otherStandardUncertainties ?? []
  return Math.hypot(gauge.resolution / Math.sqrt(12), gauge.limitOfError / Math.sqrt(3), ...others)
}

function requireLimits(measured: Omit<Measured, 'rule'>): { lower: number; upper: number } {
  const lower = measured.lower ?? Number.NEGATIVE_INFINITY
  const upper = measured.upper ?? Number.POSITIVE_INFINITY
  if (measured.lower === undefined && measured.upper === undefined) {
    throw new RangeError('A value is judged against one limit at least.')
  }
  if (!Number.isFinite(measured.value)) throw new RangeError('A measured value is a number.')
  if (lower > upper) throw new RangeError(`The lower limit ${lower} is above the upper limit ${upper}.`)
  if (!(measured.expandedUncertainty >= 0)) {
    throw new RangeError(`A gauge\u2019s uncertainty is zero or more, not ${measured.expandedUncertainty}.`)
  }
  return { lower, upper }
}
