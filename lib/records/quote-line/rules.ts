import {
  calendarDays,
  type EstimateResults,
  keptInputs,
  type Pricing,
  priceOfCost,
  ratesOf,
} from '@/lib/records/estimate/rules'

export type CostedStep = { quantity: number; costCents: number; unitCents: number }

/** The longest lead time that a line takes. */
const mostDays = 730

/** What a kept estimate makes of a quote's line: a step for each quantity with its cost behind it, and the days to offer. */
export function estimatedLine(
  estimate: { inputs: unknown; results: unknown },
  pricing?: Pricing,
): { steps: CostedStep[]; leadTimeDays: number } {
  const { ground, ask } = keptInputs(estimate.inputs)
  const { priceRounding } = ratesOf(ground.rates, ask)
  const { quantities } = estimate.results as EstimateResults
  return {
    steps: quantities.map(({ priced }) => ({
      quantity: priced.pieceCount,
      costCents: priced.unitCostCents,
      unitCents: priceOfCost(priced.unitCostCents, pricing ?? ask.pricing, priceRounding),
    })),
    leadTimeDays: Math.min(
      mostDays,
      calendarDays(Math.max(0, ...quantities.map(({ estimate: { sampledDays } }) => sampledDays.p90))),
    ),
  }
}
