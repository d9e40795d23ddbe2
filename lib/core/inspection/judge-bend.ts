import {
  conformanceProbability,
  type DecisionRule,
  decisionRuleText,
  judge,
  type Verdict,
  verdictWords,
} from '@/lib/core/inspection/decision'

export const looks = ['clean', 'marks', 'wrinkle', 'flat', 'crack'] as const

/** What the eye says of a bend: clean; tool marks; a wrinkle inside; a flat spot; a crack or a tear. */
export type Look = (typeof looks)[number]

export const penetrantResults = ['notDone', 'clear', 'indication'] as const

export type PenetrantResult = (typeof penetrantResults)[number]

/** What was measured on one bend after its last release. Absent: not measured. */
export interface MeasuredBend {
  readonly angleDeg?: number
  readonly radiusMm?: number
  readonly widthInnerMm?: number
  readonly widthMiddleMm?: number
  readonly widthOuterMm?: number
  readonly wallOuterMm?: number
  readonly wallInnerMm?: number
  readonly ovalityPct?: number
  readonly look?: Look
  readonly penetrant?: PenetrantResult
}

export type MeasuredQuantity = Exclude<keyof MeasuredBend, 'look' | 'penetrant'>

/** Expanded uncertainty (k = 2) of the gauge each quantity was read with, in the quantity's unit; absent: 0. */
export type GaugeUncertainties = Readonly<Partial<Record<MeasuredQuantity, number>>>

/** What the part asks of one bend. A quantity without limits is not judged; `required` ones must be measured before a pass. */
export interface BendTolerances {
  readonly limits: Readonly<
    Partial<Record<MeasuredQuantity, { readonly lower?: number; readonly upper?: number }>>
  >
  readonly required: readonly MeasuredQuantity[]
  readonly allowedLooks: readonly Look[]
  readonly penetrantRequired: boolean
  readonly rule: DecisionRule
}

export interface BendReason {
  readonly quantity: MeasuredQuantity | 'look' | 'penetrant'
  readonly verdict: Verdict
  readonly text: string
  /** Chance that the true value conforms, where a gauge was used. */
  readonly conformance?: number
}

export interface BendJudgement {
  readonly verdict: Verdict
  readonly reasons: readonly BendReason[]
  readonly ruleText: string
}

/** The plain name and unit of each measured quantity. */
export const quantityNames: Readonly<Record<MeasuredQuantity, { name: string; unit: string }>> = {
  angleDeg: { name: 'angle', unit: '\u00b0' },
  radiusMm: { name: 'centreline radius', unit: ' mm' },
  widthInnerMm: { name: 'width at the inner face', unit: ' mm' },
  widthMiddleMm: { name: 'width at the middle', unit: ' mm' },
  widthOuterMm: { name: 'width at the outer face', unit: ' mm' },
  wallOuterMm: { name: 'wall at the outer face', unit: ' mm' },
  wallInnerMm: { name: 'wall at the inner face', unit: ' mm' },
  ovalityPct: { name: 'ovality', unit: ' percent' },
}

const quantities = Object.keys(quantityNames) as MeasuredQuantity[]

/**
 * Whether one bend passes: every quantity with limits by the decision rule, the look and the dye penetrant by word.
 *   any fail makes a fail; else anything that can't be told, or is required and missing, makes a cannot say; else pass
 * Source: ISO 14253-1 for measured quantities; a crack or an indication fails whatever the part allows. Valid: limits in order.
 */
export function judgeBend(
  record: MeasuredBend,
  tolerances: BendTolerances,
  gauges: GaugeUncertainties = {},
): BendJudgement {
  const reasons = [
    ...quantities.flatMap((quantity) => judgeQuantity(quantity, record, tolerances, gauges)),
    ...judgeLook(record, tolerances),
    ...judgePenetrant(record, tolerances),
  ]
  return { verdict: worst(reasons), reasons, ruleText: decisionRuleText(tolerances.rule) }
}

/** The verdict of several together: fail over cannot say over pass; nothing judged is cannot say. */
export function worst(reasons: readonly { readonly verdict: Verdict }[]): Verdict {
  if (reasons.some(({ verdict }) => verdict === 'fail')) return 'fail'
  if (reasons.length === 0 || reasons.some(({ verdict }) => verdict === 'cannotSay')) return 'cannotSay'
  return 'pass'
}

function judgeQuantity(
  quantity: MeasuredQuantity,
  record: MeasuredBend,
  tolerances: BendTolerances,
  gauges: GaugeUncertainties,
): BendReason[] {
  const { name, unit } = quantityNames[quantity]
  const value = record[quantity]
  const limits = tolerances.limits[quantity]
  if (value === undefined) {
    if (!tolerances.required.includes(quantity)) return []
    return [{ quantity, verdict: 'cannotSay', text: `${name} not measured` }]
  }
  if (!limits || (limits.lower === undefined && limits.upper === undefined)) return []
  const expandedUncertainty = gauges[quantity] ?? 0
  const measured = { value, ...limits, expandedUncertainty }
  const verdict = judge({ ...measured, rule: tolerances.rule })
  const gaugeText = expandedUncertainty > 0 ? `, gauge \u00b1${trimmed(expandedUncertainty)}${unit}` : ''
  return [
    {
      quantity,
      verdict,
      text: `${verdictWords[verdict]}: ${name} ${trimmed(value)}${unit}, ${limitText(limits, unit)}${gaugeText}`,
      ...(expandedUncertainty > 0 ? { conformance: conformanceProbability(measured) } : {}),
    },
  ]
}

function judgeLook({ look }: MeasuredBend, { allowedLooks }: BendTolerances): BendReason[] {
  if (look === undefined) return [{ quantity: 'look', verdict: 'cannotSay', text: 'look not recorded' }]
  if (look === 'crack') return [{ quantity: 'look', verdict: 'fail', text: 'fail: cracked' }]
  const allowed = look === 'clean' || allowedLooks.includes(look)
  const text = allowed
    ? `pass: look ${look}`
    : `fail: look ${look}, the part allows ${allowedText(allowedLooks)}`
  return [{ quantity: 'look', verdict: allowed ? 'pass' : 'fail', text }]
}

function judgePenetrant({ penetrant }: MeasuredBend, { penetrantRequired }: BendTolerances): BendReason[] {
  if (penetrant === 'indication') {
    return [{ quantity: 'penetrant', verdict: 'fail', text: 'fail: dye penetrant shows an indication' }]
  }
  if (penetrant === 'clear') {
    return [{ quantity: 'penetrant', verdict: 'pass', text: 'pass: dye penetrant clear' }]
  }
  if (!penetrantRequired) return []
  return [{ quantity: 'penetrant', verdict: 'cannotSay', text: 'dye penetrant not done yet' }]
}

function allowedText(allowed: readonly Look[]): string {
  const others = allowed.filter((look) => look !== 'clean' && look !== 'crack')
  return ['clean', ...others].join(' or ')
}

function limitText(limits: { readonly lower?: number; readonly upper?: number }, unit: string): string {
  if (limits.lower === undefined) return `at most ${trimmed(limits.upper ?? 0)}${unit}`
  if (limits.upper === undefined) return `at least ${trimmed(limits.lower)}${unit}`
  return `allowed ${trimmed(limits.lower)} to ${trimmed(limits.upper)}${unit}`
}

function trimmed(value: number): string {
  return String(Number(value.toFixed(3)))
}
