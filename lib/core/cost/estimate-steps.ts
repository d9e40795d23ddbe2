import { estimateCost } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { wholeCents } from '@/lib/core/cost/money'
import { routing } from '@/lib/core/cost/operations'

export type EstimateStepKey = 'way' | 'tools' | 'tube' | 'rates' | 'yield' | 'times'

/** One group of inputs changed from how it was to how it is, and what that did to the expected cost of the order. */
export interface EstimateStep {
  readonly key: EstimateStepKey
  readonly beforeCents: number
  readonly afterCents: number
  readonly changeCents: number
}

type Changes = readonly (readonly [
  EstimateStepKey,
  (before: EstimateInput, after: EstimateInput) => EstimateInput,
])[]

const changes: Changes = [
  [
    'way',
    (before, { way, support, strap, part }) => ({
      ...before,
      way,
      part,
      ...(support !== undefined && { support }),
      ...(strap !== undefined && { strap }),
    }),
  ],
  ['tools', (before, { tooling }) => ({ ...before, tooling: tooling ?? [] })],
  ['tube', (before, { material }) => ({ ...before, material })],
  ['rates', (before, { rates }) => ({ ...before, rates })],
  [
    'yield',
    (before, { firstPassYieldFraction, rates }) => ({
      ...before,
      firstPassYieldFraction: firstPassYieldFraction ?? rates.firstPassYieldFraction,
    }),
  ],
  ['times', (before, { overrides }) => ({ ...before, overrides: overrides ?? [] })],
]

/**
 * Why an order costs otherwise than before: the inputs changed one group after another, each step the next expected cost less the last.
 *   sum of the steps = expected cost after - expected cost before, to the cent
 * Source: stepwise substitution (chain) of variance analysis; what two changes do together falls to the later one.
 * Valid: both for the same count of good pieces.
 */
export function estimateSteps(before: EstimateInput, after: EstimateInput): EstimateStep[] {
  if (before.pieceCount !== after.pieceCount) {
    throw new RangeError(
      `Only estimates of one quantity are set against each other, not ${before.pieceCount} and ${after.pieceCount}.`,
    )
  }
  let now: EstimateInput = {
    ...before,
    firstPassYieldFraction: before.firstPassYieldFraction ?? before.rates.firstPassYieldFraction,
  }
  let cents = expectedCents(now)
  return changes.map(([key, change]): EstimateStep => {
    const next = change(now, after)
    const nextCents = same(now, next) ? cents : expectedCents(next)
    const step = { key, beforeCents: cents, afterCents: nextCents, changeCents: nextCents - cents }
    now = next
    cents = nextCents
    return step
  })
}

function expectedCents(input: EstimateInput): number {
  return wholeCents(estimateCost(withFittingOverrides(input)).costCents.mean)
}

function same(one: EstimateInput, other: EstimateInput): boolean {
  return JSON.stringify(one) === JSON.stringify(other)
}

/** The input with the times set by hand that this way has an operation for; the others wait for a way that has. */
export function withFittingOverrides(input: EstimateInput): EstimateInput {
  const overrides = input.overrides ?? []
  if (overrides.length === 0) return input
  const keys = routing({ ...input, times: input.rates.times, overrides: [] }).map(({ key }) => key)
  return { ...input, overrides: overrides.filter(({ operationKey }) => keys.includes(operationKey)) }
}
