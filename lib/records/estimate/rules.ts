import type { CostedPart } from '@/lib/core/cost/costed-part'
import { type Estimate, estimateCost, startsOutlook } from '@/lib/core/cost/estimate'
import type { EstimateInput, MaterialCost, ToolingItem } from '@/lib/core/cost/estimate-input'
import { withFittingOverrides } from '@/lib/core/cost/estimate-steps'
import {
  type PriceRounding,
  priceByMarginCents,
  priceByMarkupCents,
  roundPriceCents,
  wholeCents,
} from '@/lib/core/cost/money'
import type { OperationOverride } from '@/lib/core/cost/operation'
import { type RateOverride, withRateOverrides } from '@/lib/core/cost/rate-overrides'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import { type WayKey, wayKeys } from '@/lib/core/cost/ways'
import { formatLength } from '@/lib/core/format'
import { remembered } from '@/lib/core/remembered'
import type { SpecMaterial } from '@/lib/core/spec/contract'
import type { TubePlan } from '@/lib/core/stock/tube-plan'
import type { LengthUnit } from '@/lib/core/units'
import type { ToolToMake, WayBasis } from '@/lib/core/ways/way-basis'
import { overridableRate, type YieldRecord } from '@/lib/records/estimate-rate/rules'
import type { PotFacts } from '@/lib/records/filler-alloy/rules'
import type { RevisionFacts, SetupFacts } from '@/lib/records/part/rules'

export type HomeWay = Exclude<WayKey, 'outside'>

export const homeWays = wayKeys.filter((way): way is HomeWay => way !== 'outside')

export type RackBar = { key: string; lengthMm: number; isOffcut: boolean; centsPerM: number; name: string }

/** Tube of one material in the part's size: what lies free, and what the last delivery cost a metre. */
export type TubeStock = { materialId: string; latestCentsPerM: number | null; bars: RackBar[] }

export type Pot = PotFacts & { shopNumber: string; name: string; inPotKg: number }

/** Everything in the shop that an estimate of one revision is made from, as it stands. */
export type EstimateGround = {
  revision: RevisionFacts
  /** The set-up chosen, or the one suggested where none is; null where the shop has no press. */
  setup: (SetupFacts & { press: { minimumSpanMm: number; maximumSpanMm: number } }) | null
  isSetupSaved: boolean
  tools: {
    dieRadiiMm: number[]
    strap: { thicknessMm: number; widthMm: number; yieldMPa: number; frictionCoeff: number | null } | null
    pot: Pot | null
  }
  shop: { pressUseFraction: number; trimMm: number; kerfMm: number; lengthUnit: LengthUnit; currency: string }
  /** The shop's own values of the material, over the table's. */
  ownMaterial: SpecMaterial | null
  /** What finished bends taught of its springback, by how the tube was held: see `methodText`. */
  learned: Readonly<Record<string, { factor: number; sd: number; text: string }>>
  rateSheetId: number
  ratesOn: string
  rates: ShopRates
  /** What the shop's records say of pieces that are good the first time; null while they say nothing. */
  yieldRecord: YieldRecord | null
  tubes: TubeStock[]
  outsideQuoteCount: number
}

/** How a tool to make is paid: all by this job, shared over several, or not in this estimate. */
export type ToolCharge = { charge: 'job' | 'spread' | 'none'; overJobs: number }

/** What a person decides about an estimate; all else comes from the shop's records. */
export type EstimateAsk = {
  way: HomeWay
  quantities: number[]
  yieldFraction: number
  /** Why it is not the shop's; empty where it is. */
  yieldReason: string
  holeCount: number
  weldedEndCount: number
  dyePenetrant: boolean
  buyable: { lengthMm: number; priceCents: number }[]
  tools: Record<string, ToolCharge>
  overrides: OperationOverride[]
  rateOverrides: RateOverride[]
  pricing: Pricing
}

/** A price is made by a margin, a share of the price, or by a markup, a share of the cost: never both. */
export type Pricing = { by: 'margin' | 'markup'; ppm: number }

/** What stands in an estimate before anybody says otherwise. */
export function firstAsk(ground: EstimateGround, bases: readonly WayBasis[]): EstimateAsk | null {
  const costable = bases.filter(({ part }) => part !== null)
  const own = setupWay(ground)
  const basis =
    costable.find(({ way, word }) => way === own && word !== 'no') ??
    costable.find(({ word }) => word === 'yes') ??
    costable.find(({ way }) => way === own) ??
    costable[0]
  if (!basis) return null
  const usual = Math.max(1, ground.revision.typicalQuantity)
  return {
    way: basis.way,
    quantities: [...new Set([1, usual, usual * 3])].slice(0, 3),
    yieldFraction: ground.rates.firstPassYieldFraction,
    yieldReason: '',
    holeCount: 0,
    weldedEndCount: 0,
    dyePenetrant: ground.revision.couldHurt,
    buyable: usualBars(ground, basis),
    tools: {},
    overrides: [],
    rateOverrides: [],
    pricing: { by: 'margin', ppm: ground.rates.marginPpm },
  }
}

/** The shop's rates as an estimate counts with them. */
export function ratesOf(rates: ShopRates, ask: Pick<EstimateAsk, 'rateOverrides'>): ShopRates {
  return withRateOverrides(rates, ask.rateOverrides)
}

/** What a version was made from as it was kept; earlier ones had no rates set for one estimate, and no learned springback. */
export function keptInputs(kept: unknown): EstimateInputs {
  const inputs = kept as EstimateInputs
  const none = { yieldReason: '', rateOverrides: [] }
  return { ...inputs, ask: { ...none, ...inputs.ask }, ground: { ...{ learned: {} }, ...inputs.ground } }
}

/**
 * The decisions of a version taken up again: a yield or a margin that was the shop's then is the shop's of today, one that
 * was set for the estimate stays.
 */
export function carriedAsk({ ask, ground: made }: EstimateInputs, ground: EstimateGround): EstimateAsk {
  const followedYield = ask.yieldReason === '' && ask.yieldFraction === made.rates.firstPassYieldFraction
  const followedMargin = ask.pricing.by === 'margin' && ask.pricing.ppm === made.rates.marginPpm
  return {
    ...ask,
    ...(followedYield && { yieldFraction: ground.rates.firstPassYieldFraction }),
    ...(followedMargin && { pricing: { by: 'margin', ppm: ground.rates.marginPpm } }),
    rateOverrides: ask.rateOverrides.filter(({ path }) => overridableRate(path) !== null),
  }
}

/**
 * What an order is costed from where nobody is asked: the latest estimate of this way as it was decided, else what stands
 * before anybody decides. Bars bought in an estimate of another way of the same tube count here too: else one way would be
 * weighed with its tube and the other without.
 */
export function askOfWay(
  ground: EstimateGround,
  basis: WayBasis,
  versions: readonly { way: HomeWay; inputs: EstimateInputs }[],
): EstimateAsk | null {
  const own = versions.find(({ way }) => way === basis.way)?.inputs
  if (own) return { ...carriedAsk(own, ground), way: basis.way }
  const first = firstAsk(ground, [basis])
  if (!first || first.buyable.length > 0) return first
  const priced = versions.find(
    ({ inputs }) => inputs.basis.materialId === basis.materialId && inputs.ask.buyable.length > 0,
  )
  return priced ? { ...first, buyable: priced.inputs.ask.buyable } : first
}

function setupWay({ setup, isSetupSaved }: EstimateGround): HomeWay | null {
  if (!setup || !isSetupSaved) return null
  if (setup.support === 'lowMelt') return setup.strap ? 'lowMeltStrap' : 'lowMelt'
  return setup.support
}

/** Lengths tube is commonly sold in: 20 and 24 ft, 6 and 7 m. Source: common mill lengths, common practice. */
const usualBarsMm: Readonly<Record<LengthUnit, readonly number[]>> = { in: [6096, 7315.2], mm: [6000, 7000] }

/** The shortest usual bar that a piece comes out of. */
export function usualBarMm(basis: Pick<WayBasis, 'sawnPieces'>, unit: LengthUnit, endTrimMm: number): number {
  const longestMm = Math.max(0, ...basis.sawnPieces.map(({ lengthMm }) => lengthMm))
  const lengths = usualBarsMm[unit]
  return lengths.find((mm) => mm >= longestMm + endTrimMm) ?? Math.max(...lengths)
}

/** The bar to buy that most shops would, at the price of the last delivery; without a delivery none has a price yet. */
function usualBars(ground: EstimateGround, basis: WayBasis): EstimateAsk['buyable'] {
  const centsPerM = tubeOf(ground, basis).latestCentsPerM
  if (centsPerM === null) return []
  const lengthMm = usualBarMm(basis, ground.shop.lengthUnit, ground.rates.endTrimMm)
  return [{ lengthMm, priceCents: wholeCents((lengthMm / 1000) * centsPerM) }]
}

/** The tube this way is cut from: a way that bends another temper buys that one. */
export function tubeOf(ground: EstimateGround, basis: Pick<WayBasis, 'materialId'>): TubeStock {
  const id = basis.materialId ?? ground.revision.materialId
  return (
    ground.tubes.find(({ materialId }) => materialId === id) ?? {
      materialId: id,
      latestCentsPerM: null,
      bars: [],
    }
  )
}

/** Starts the tube is planned for: the ones to expect, rounded up. */
export function plannedStarts(pieceCount: number, yieldFraction: number): number {
  return startsOutlook(pieceCount, yieldFraction).likely
}

/** The cutting to plan for one quantity. */
export function tubeQuestionOf(
  ground: EstimateGround,
  basis: WayBasis,
  ask: EstimateAsk,
  pieceCount: number,
) {
  const { endTrimMm, keepOffcutFromMm, offcutValueFraction } = ratesOf(ground.rates, ask)
  return {
    sawnPieces: basis.sawnPieces,
    plannedStarts: plannedStarts(pieceCount, ask.yieldFraction),
    rack: tubeOf(ground, basis).bars,
    buyable: ask.buyable,
    kerfMm: ground.shop.kerfMm,
    endTrimMm,
    keepOffcutFromMm,
    offcutValueFraction,
  }
}

/** What the money side is asked for one quantity; null where the way has nothing to cost. */
export function estimateInputOf(
  basis: WayBasis,
  ask: EstimateAsk,
  from: {
    rates: ShopRates
    lengthUnit: LengthUnit
    startCut: CostedPart['startCut']
    endCut: CostedPart['endCut']
  },
  at: { pieceCount: number; material: MaterialCost },
): EstimateInput | null {
  if (!basis.part) return null
  const rates = ratesOf(from.rates, ask)
  const part: CostedPart = {
    ...basis.part,
    startCut: from.startCut,
    endCut: from.endCut,
    holeCount: ask.holeCount,
    featureCount: basis.part.featureCount + ask.holeCount,
    weldedEndCount: ask.weldedEndCount,
    dyePenetrant: ask.dyePenetrant,
  }
  return {
    way: basis.way,
    pieceCount: at.pieceCount,
    part,
    rates,
    material: at.material,
    tooling: toolingOf(basis, ask, { rates, lengthUnit: from.lengthUnit }),
    support: basis.support,
    strap: basis.strap,
    firstPassYieldFraction: ask.yieldFraction,
    overrides: ask.overrides,
  }
}

/** A tool to make in words: 'die, surface radius 9.25 in'. */
export function toolWords(tool: ToolToMake, unit: LengthUnit): string {
  if (tool.surfaceRadiusMm !== null) return `die, surface radius ${formatLength(tool.surfaceRadiusMm, unit)}`
  const strap = tool.strap
  if (!strap) return 'strap'
  const sides = [strap.thicknessMm, strap.widthMm, strap.lengthMm]
  return `strap, ${sides.map((mm) => formatLength(mm, unit)).join(' × ')}`
}

function toolingOf(
  basis: WayBasis,
  ask: EstimateAsk,
  from: { rates: ShopRates; lengthUnit: LengthUnit },
): ToolingItem[] {
  const { rates } = from
  return basis.toolsToMake.flatMap((tool): ToolingItem[] => {
    const { charge, overJobs } = ask.tools[tool.key] ?? { charge: 'job', overJobs: 1 }
    if (charge === 'none') return []
    const isDie = tool.kind === 'die'
    return [
      {
        key: tool.key,
        label: toolWords(tool, from.lengthUnit),
        makeMinutes: isDie ? rates.dieMakeMinutes : rates.strapMakeMinutes,
        materialCents: isDie ? rates.dieMaterialCents : rates.strapMaterialCents,
        spreadOverJobs: charge === 'spread' ? Math.max(1, overJobs) : 1,
      },
    ]
  })
}

/** One quantity of an estimate with what a piece costs and would sell at. */
export type PricedQuantity = {
  pieceCount: number
  /** Expected cost of a piece: the mean of all sampled orders, in whole cents. */
  unitCostCents: number
  unitPriceCents: number
}

/** Price from cost by margin or markup, brought to the shop's round figure. */
export function priceOfCost(costCents: number, pricing: Pricing, rounding: PriceRounding): number {
  const exact =
    pricing.by === 'margin'
      ? priceByMarginCents(costCents, pricing.ppm)
      : priceByMarkupCents(costCents, pricing.ppm)
  return roundPriceCents(exact, rounding)
}

export function pricedQuantity(
  estimate: { pieceCount: number; costCents: { mean: number } },
  pricing: Pricing,
  rounding: PriceRounding,
): PricedQuantity {
  const unitCostCents = wholeCents(estimate.costCents.mean / estimate.pieceCount)
  return {
    pieceCount: estimate.pieceCount,
    unitCostCents,
    unitPriceCents: priceOfCost(unitCostCents, pricing, rounding),
  }
}

/** Ten thousand orders are drawn for each: the ways and breaks of a part ask the same at each request. */
const rememberedCost = remembered(estimateCost, 64)

/** The estimate of one quantity; a time set by hand for an operation this way lacks is left out rather than refused. */
export function estimateAt(input: EstimateInput): Estimate {
  return rememberedCost(withFittingOverrides(input))
}

/** No tube at all: where its cutting cannot be planned yet, so that hours are still answered. */
export const noTube: MaterialCost = {
  plannedStarts: 1,
  plannedCents: 0,
  extraStartCents: 0,
  from: 'no tube planned',
}

/** What one version of an estimate was made from, whole, so that it can be worked out again whatever changes since. */
export type EstimateInputs = {
  ask: EstimateAsk
  ground: EstimateGround
  basis: WayBasis
  quantities: EstimateInput[]
}

/** What came out, as it was shown when it was saved. */
export type EstimateResults = {
  quantities: { pieceCount: number; estimate: Estimate; tube: TubePlan; priced: PricedQuantity }[]
}

/** Working days as days of the calendar, five worked of seven, rounded up. Common practice, no source. */
export function calendarDays(workingDays: number): number {
  return Math.max(0, Math.ceil((workingDays * 7) / 5 - 1e-9))
}
