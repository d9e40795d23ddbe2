import { rememberedSpec } from '@/lib/core/spec/bend-spec'
import type { SpecAnswer, SpecFault, SpecInput, Verdict } from '@/lib/core/spec/contract'
import { SpecRefusal } from '@/lib/core/spec/contract'

/** Whether a way can be done here. */
export type WayWord = 'yes' | 'doubtful' | 'no'

/** The check that decides: its number, its limit, and the share of the limit that is used (1 is all of it). */
export interface Governing {
  readonly bendIndex: number
  readonly check: Verdict['check']
  readonly verdict: Verdict['verdict']
  readonly value: number
  readonly limit: number
  readonly unit: string
  readonly usedFraction: number
  readonly text: string
}

export type JudgedSpec =
  | {
      readonly solved: true
      readonly input: SpecInput
      readonly answer: SpecAnswer
      readonly word: WayWord
      readonly governing: Governing | null
    }
  | {
      readonly solved: false
      readonly input: SpecInput
      readonly word: 'no'
      readonly faults: readonly SpecFault[]
    }

const severity: Readonly<Record<Verdict['verdict'], WayWord>> = {
  ok: 'yes',
  holds: 'yes',
  warn: 'doubtful',
  marks: 'doubtful',
  refuse: 'no',
  flattens: 'no',
  collapses: 'no',
}

const rank: Readonly<Record<WayWord, number>> = { yes: 0, doubtful: 1, no: 2 }

/** Checks where more is better: the number has to stay above its limit. */
const mustExceed: readonly Verdict['check'][] = ['span', 'reduction']

/** Share of a limit that is used: value / limit, or limit / value where the value has to stay above. Valid: limit above zero. */
export function usedFraction(verdict: Pick<Verdict, 'check' | 'value' | 'limit'>): number {
  return mustExceed.includes(verdict.check)
    ? verdict.limit / Math.max(verdict.value, Number.MIN_VALUE)
    : verdict.value / verdict.limit
}

/** Of two words the worse. */
export function worseWord(one: WayWord, other: WayWord): WayWord {
  return rank[one] >= rank[other] ? one : other
}

/**
 * The bend spec of a question and what decides it: the worst check of any bend, of equals the one nearest its limit.
 * Valid: what the bend model answers; a refusal is a "no" with its faults.
 */
export function judgeSpec(input: SpecInput): JudgedSpec {
  try {
    const answer = rememberedSpec(input)
    const governing = governingCheck(answer)
    return { solved: true, input, answer, governing, word: governing ? severity[governing.verdict] : 'yes' }
  } catch (cause) {
    if (cause instanceof SpecRefusal) return { solved: false, input, word: 'no', faults: cause.faults }
    throw cause
  }
}

function governingCheck(answer: SpecAnswer): Governing | null {
  let worst: Governing | null = null
  for (const [bendIndex, bend] of answer.bends.entries()) {
    for (const { check, verdict, value, limit, unit, text } of bend.verdicts) {
      const one = {
        bendIndex,
        check,
        verdict,
        value,
        limit,
        unit,
        text,
        usedFraction: usedFraction({ check, value, limit }),
      }
      if (worst === null || isWorse(one, worst)) worst = one
    }
  }
  return worst
}

function isWorse(one: Governing, other: Governing): boolean {
  const difference = rank[severity[one.verdict]] - rank[severity[other.verdict]]
  if (difference !== 0) return difference > 0
  // A check that a filler makes harmless doesn't decide: the ram's bearing on side walls is one.
  if ((one.check === 'ramBearing') !== (other.check === 'ramBearing') && severity[one.verdict] === 'yes') {
    return other.check === 'ramBearing'
  }
  return one.usedFraction > other.usedFraction
}
