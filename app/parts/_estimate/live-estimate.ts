import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { Estimate } from '@/lib/core/cost/estimate'
import type { MaterialCost } from '@/lib/core/cost/estimate-input'
import { perLengthMaterialCost } from '@/lib/core/cost/material-cost'
import { wholeCents } from '@/lib/core/cost/money'
import { routing } from '@/lib/core/cost/operations'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import type { TubePlan } from '@/lib/core/stock/tube-plan'
import type { LengthUnit } from '@/lib/core/units'
import type { WayBasis } from '@/lib/core/ways/way-basis'
import {
  type EstimateAsk,
  estimateAt,
  estimateInputOf,
  noTube,
  type PricedQuantity,
  plannedStarts,
  pricedQuantity,
} from '@/lib/records/estimate/rules'
import { type EstimateTyped, estimateForm } from '@/lib/records/estimate/schema'

/** What the browser needs of the shop to answer while somebody types. */
export type LiveGround = {
  bases: readonly WayBasis[]
  rates: ShopRates
  units: { lengthUnit: LengthUnit; currency: string }
  startCut: CostedPart['startCut']
  endCut: CostedPart['endCut']
}

export type TubePlans = readonly { pieceCount: number; tube: TubePlan }[]

export type LiveQuantity = {
  estimate: Estimate
  priced: PricedQuantity
  /** How the tube is cut; null while it is being planned. */
  tube: TubePlan | null
}

/** What is typed as decisions; a time whose reason is still to be said counts already. Null where a field can't be read. */
export function readAsk(typed: EstimateTyped, units: LiveGround['units']): EstimateAsk | null {
  const said = {
    ...typed,
    // A bar without a price yet is none that can be bought.
    buyable: typed.buyable.filter(({ priceCents }) => priceCents.trim() !== ''),
    overrides: typed.overrides.map(reasoned),
    rateOverrides: typed.rateOverrides.map(reasoned),
  }
  const parsed = estimateForm(units).safeParse(said)
  if (!parsed.success) return null
  const { revisionId: _revisionId, mark: _mark, ...ask } = parsed.data
  return ask
}

const reasoned = <One extends { reason: string }>(one: One): One => ({
  ...one,
  reason: one.reason.trim().length < 3 ? 'not said yet' : one.reason,
})

/** The part of an estimate that decides how its tube is cut: another one has to be planned again. */
export function tubeKey({ way, quantities, yieldFraction, buyable, rateOverrides }: EstimateAsk): string {
  const cutting = rateOverrides.filter(({ path }) => cuttingRates.has(path))
  return JSON.stringify([
    way,
    quantities,
    yieldFraction,
    buyable,
    cutting.map(({ path, value }) => [path, value]),
  ])
}

const cuttingRates: ReadonlySet<string> = new Set(['endTrimMm', 'keepOffcutFromMm', 'offcutValueFraction'])

export function liveQuantities(
  ground: LiveGround,
  basis: WayBasis,
  ask: EstimateAsk,
  plans: TubePlans | null,
): LiveQuantity[] {
  return ask.quantities.flatMap((pieceCount): LiveQuantity[] => {
    const tube = plans?.find((plan) => plan.pieceCount === pieceCount)?.tube ?? null
    const material = tube ? (tube.material ?? noTube) : byTheMetre(basis, ask, pieceCount)
    const input = estimateInputOf(basis, ask, costedIn(ground), { pieceCount, material })
    if (!input) return []
    const estimate = estimateAt(input)
    return [{ estimate, priced: pricedQuantity(estimate, ask.pricing, input.rates.priceRounding), tube }]
  })
}

/** Until the cutting is planned: what the length alone costs at the cheapest bar's price. */
function byTheMetre(basis: WayBasis, ask: EstimateAsk, pieceCount: number): MaterialCost {
  const lengthMm = basis.length?.sawnMm ?? 0
  const centsPerM = ask.buyable.map((bar) => (1000 * bar.priceCents) / bar.lengthMm)
  if (lengthMm === 0 || centsPerM.length === 0) return noTube
  return perLengthMaterialCost({
    plannedStarts: plannedStarts(pieceCount, ask.yieldFraction),
    cutLengthMm: lengthMm,
    kerfMm: 0,
    centsPerM: wholeCents(Math.min(...centsPerM)),
  })
}

const costedIn = ({ rates, units, startCut, endCut }: LiveGround) => ({
  rates,
  lengthUnit: units.lengthUnit,
  startCut,
  endCut,
})

/** The operations as the shop's times make them, before anybody set one by hand. */
export function computedOperations(ground: LiveGround, basis: WayBasis, ask: EstimateAsk) {
  const input = estimateInputOf(basis, ask, costedIn(ground), { pieceCount: 1, material: noTube })
  return input ? routing({ ...input, times: input.rates.times, overrides: [] }) : []
}
