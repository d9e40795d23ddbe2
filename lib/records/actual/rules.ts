import { type CostItem, costAtCents, itemCents } from '@/lib/core/cost/cost-model'
import type { Estimate } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { marginAndMarkup, wholeCents } from '@/lib/core/cost/money'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import { type OperationVariance, operationVariances, plannedOperationMinutes } from '@/lib/core/cost/variance'
import { type EstimateInputs, type EstimateResults, estimateAt } from '@/lib/records/estimate/rules'
import { type LoggedSpan, loggedMinutes } from '@/lib/records/lesson/rules'

/** What a job really took, as the bench, the rack and the pot's ledger have it. */
export type ActualFacts = {
  quantity: number
  goodCount: number
  /** Pieces that anything was done with. */
  startedCount: number
  bendsOnDrawing: number
  tryCount: number
  operations: { key: string; name: string; logs: LoggedSpan[] }[]
  bars: { number: string; lengthMm: number; backMm: number; centsPerM: number }[]
  filler: { pouredKg: number; recoveredKg: number; lostKg: number }
  /** What the order was sold for; null while the job goes on or where no price is known. */
  soldForCents: number | null
}

export type CostRow = {
  key: 'labour' | 'tube' | 'filler'
  label: string
  plannedCents: number
  actualCents: number | null
  note: string
}

export type ActualReport = {
  version: number
  estimateId: number
  startsPlanned: { expected: number; p90: number }
  startedCount: number
  goodCount: number
  /** Tries at a bend, and how many there would be with every first one good. */
  tries: { made: number; least: number }
  operations: (OperationVariance & { plannedCents: number; actualCents: number | null })[]
  costs: CostRow[]
  plannedCents: number
  actualCents: number
  earned: Earned | null
  currency: string
}

/** What an order that is over earned of its price, and what it was to earn when it was quoted. */
export type Earned = {
  priceCents: number
  expectedCostCents: number
  costCents: number
  expectedMarginFraction: number | null
  marginFraction: number | null
}

/**
 * The estimate of the very quantity that was made, from what the quoted version kept: its own where it has one, else
 * worked out again from its inputs with the tube by the metre.
 */
export function estimateOfQuantity(
  inputs: EstimateInputs,
  results: EstimateResults,
  quantity: number,
): { input: EstimateInput; estimate: Estimate } | null {
  const kept = results.quantities.find(({ pieceCount }) => pieceCount === quantity)
  const own = inputs.quantities.find(({ pieceCount }) => pieceCount === quantity)
  if (kept && own) return { input: own, estimate: kept.estimate }
  const nearest =
    inputs.quantities.findLast(({ pieceCount }) => pieceCount <= quantity) ?? inputs.quantities[0]
  if (!nearest) return null
  const { extraStartCents } = nearest.material
  const plannedStarts = Math.ceil(quantity / (nearest.firstPassYieldFraction ?? 1) - 1e-9)
  const input: EstimateInput = {
    ...nearest,
    pieceCount: quantity,
    material: {
      plannedStarts,
      plannedCents: plannedStarts * extraStartCents,
      extraStartCents,
      from: `${plannedStarts} starts by the metre`,
    },
  }
  return { input, estimate: estimateAt(input) }
}

/** What was planned at the starts really made, against what was logged, used and lost. Rates are those of the estimate. */
export function actualAgainst(
  of: { id: number; number: number; rates: ShopRates; currency: string; estimate: Estimate },
  facts: ActualFacts,
): ActualReport {
  const { estimate, rates } = of
  const starts = Math.max(facts.startedCount, estimate.pieceCount)
  const planned = plannedOperationMinutes(estimate, starts)
  const logged = facts.operations.flatMap(({ key, name, logs }) => {
    const minutes = loggedMinutes(logs)
    return minutes > 0 ? [{ operationKey: key, name, minutes }] : []
  })
  const rateOf = (key: string) => {
    const centre = estimate.operations.find((one) => one.key === key)?.workCentre ?? 'bench'
    return rates.labourCentsPerH[centre] / 60
  }
  const operations = operationVariances(planned, logged).map((one) => ({
    ...one,
    plannedCents: wholeCents(one.plannedMinutes.likely * rateOf(one.operationKey)),
    actualCents: one.actualMinutes === null ? null : wholeCents(one.actualMinutes * rateOf(one.operationKey)),
  }))
  const costs = [
    labourRow(operations),
    tubeRow(estimate, facts),
    ...(estimate.lines.some(({ key }) => key === 'fillerLoss') ? [fillerRow(estimate, rates, facts)] : []),
  ]
  // Only what both sides know is summed: a row without an actual would make the job look cheap.
  const known = costs.filter(({ actualCents }) => actualCents !== null)
  return {
    version: of.number,
    estimateId: of.id,
    startsPlanned: { expected: estimate.starts.expected, p90: estimate.starts.p90 },
    startedCount: facts.startedCount,
    goodCount: facts.goodCount,
    tries: { made: facts.tryCount, least: facts.startedCount * facts.bendsOnDrawing },
    operations,
    costs,
    plannedCents: known.reduce((sum, { plannedCents }) => sum + plannedCents, 0),
    actualCents: known.reduce((sum, { actualCents }) => sum + (actualCents ?? 0), 0),
    earned: facts.soldForCents === null ? null : earnedOf(facts.soldForCents, estimate, starts, costs),
    currency: of.currency,
  }
}

/**
 * Cost of the whole order as far as it is known.
 *   the estimate at the starts really made + (1 + contingency) ((1 + overhead) labour difference + tube and filler difference)
 * Source: definition; what nobody timed or noted stands as estimated. Valid: contingency taken as spent.
 */
function earnedOf(
  priceCents: number,
  { model, costCents }: Estimate,
  starts: number,
  costs: readonly CostRow[],
): Earned {
  const likely = ({ quantity }: CostItem) => quantity.likely
  const estimatedCents = (...keys: string[]) =>
    model.items
      .filter(({ key }) => keys.includes(key))
      .reduce((sum, item) => sum + itemCents(item, model, starts, likely(item)), 0)
  const differenceCents = (key: CostRow['key'], plannedCents: number | null) => {
    const row = costs.find((one) => one.key === key)
    return row?.actualCents == null ? 0 : row.actualCents - (plannedCents ?? row.plannedCents)
  }
  const labour = (1 + model.overheadFactor) * differenceCents('labour', null)
  const tube = differenceCents('tube', estimatedCents('material', 'materialExtra'))
  const filler = differenceCents('filler', estimatedCents('fillerLoss'))
  const cost = costAtCents(model, starts, likely) + (1 + model.contingencyFraction) * (labour + tube + filler)
  const [expectedCostCents, spentCents] = [wholeCents(costCents.mean), wholeCents(cost)]
  return {
    priceCents,
    expectedCostCents,
    costCents: spentCents,
    expectedMarginFraction: marginAndMarkup(expectedCostCents, priceCents).marginFraction,
    marginFraction: marginAndMarkup(spentCents, priceCents).marginFraction,
  }
}

function labourRow(operations: ActualReport['operations']): CostRow {
  const timed = operations.filter(({ actualCents }) => actualCents !== null)
  const untimed = operations.filter(({ verdict }) => verdict === 'notLogged').length
  return {
    key: 'labour',
    label: 'Labour of the operations that were timed',
    plannedCents: timed.reduce((sum, { plannedCents }) => sum + plannedCents, 0),
    actualCents: timed.length === 0 ? null : timed.reduce((sum, one) => sum + (one.actualCents ?? 0), 0),
    note: untimed === 0 ? 'every operation was timed' : `${untimed} not timed and left out on both sides`,
  }
}

function tubeRow(estimate: Estimate, { bars, startedCount }: ActualFacts): CostRow {
  const lineOf = (key: string) => estimate.lines.find((line) => line.key === key)?.likelyCents ?? 0
  const usedMm = bars.reduce((sum, { lengthMm, backMm }) => sum + lengthMm - backMm, 0)
  const cents = bars.reduce(
    (sum, { lengthMm, backMm, centsPerM }) => sum + ((lengthMm - backMm) / 1000) * centsPerM,
    0,
  )
  return {
    key: 'tube',
    label: 'Tube',
    plannedCents: lineOf('material') + lineOf('materialExtra'),
    actualCents: bars.length === 0 ? null : wholeCents(cents),
    note:
      bars.length === 0
        ? 'no bar was put to this job'
        : `${(usedMm / 1000).toFixed(2)} m of ${bars.map(({ number }) => number).join(', ')} for ${startedCount} started`,
  }
}

function fillerRow(estimate: Estimate, rates: ShopRates, { filler }: ActualFacts): CostRow {
  const missingKg = Math.max(filler.lostKg, filler.pouredKg - filler.recoveredKg)
  const isKnown = filler.pouredKg > 0 || filler.lostKg > 0
  return {
    key: 'filler',
    label: 'Filler lost',
    plannedCents: estimate.lines.find((line) => line.key === 'fillerLoss')?.likelyCents ?? 0,
    actualCents: isKnown ? wholeCents(missingKg * rates.fillerCentsPerKg) : null,
    note: isKnown
      ? `${filler.pouredKg.toFixed(2)} kg poured, ${filler.recoveredKg.toFixed(2)} kg recovered`
      : 'the pot’s ledger names nothing for this job',
  }
}
