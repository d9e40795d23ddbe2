import {
  type CostItem,
  type CostModel,
  costAtCents,
  costMoments,
  countFactor,
  daysAt,
  defaultSampleRun,
  itemCents,
  type SampleRun,
  sampleCostModel,
} from '@/lib/core/cost/cost-model'
import { requireCostedPart } from '@/lib/core/cost/costed-part'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { estimateItems } from '@/lib/core/cost/estimate-items'
import { wholeCents } from '@/lib/core/cost/money'
import type { Operation } from '@/lib/core/cost/operation'
import { routing } from '@/lib/core/cost/operations'
import { type DrawSummary, summariseDraws, type ThreePoint } from '@/lib/core/cost/spread'
import type { WayKey } from '@/lib/core/cost/ways'
import { expectedStarts, startsForConfidence, startsVariance } from '@/lib/core/cost/yield'

export type LineGroup = CostItem['group'] | 'overhead' | 'contingency'

/** One line of an estimate, for the whole order. Low and high are the ends of the item's own range, not percentiles. */
export interface EstimateLine {
  readonly key: string
  readonly label: string
  readonly group: LineGroup
  readonly lowCents: number
  readonly likelyCents: number
  readonly highCents: number
  readonly from: string
}

export interface StartsOutlook {
  readonly expected: number
  readonly sd: number
  readonly likely: number
  /** Enough in nine jobs out of ten. */
  readonly p90: number
}

export interface Estimate {
  readonly way: WayKey
  readonly pieceCount: number
  readonly operations: readonly Operation[]
  readonly lines: readonly EstimateLine[]
  /** Sum of the likely values at the expected starts rounded up. */
  readonly likelyCents: number
  /** Sampled: mean, standard deviation, 10th, 50th, 90th percentile of the order's cost. */
  readonly costCents: DrawSummary
  readonly costPerPieceCents: {
    readonly p10: number
    readonly p50: number
    readonly mean: number
    readonly p90: number
  }
  /** Worked out without sampling, to hold the sampling to; null where a least charge forbids it. */
  readonly closedForm: { readonly meanCents: number; readonly sdCents: number } | null
  readonly labourHours: ThreePoint
  /** Working days from the order to packed: queue, work, waiting and outside treatment. */
  readonly days: ThreePoint
  readonly sampledDays: DrawSummary
  readonly starts: StartsOutlook
  /** The whole cost as data: sample it again, compare it, ask what moves it. */
  readonly model: CostModel
  readonly sample: SampleRun
}

/**
 * Cost, hours and days of making an order one way.
 *   operations times rates, with allowance once, learning on hand work and starts from the first-pass yield; material for the planned
 *   starts; filler loss; consumables; tooling; outside heat treatment with its least charge; overhead on labour; contingency on all
 * Source: the shop's rates; each line says where it comes from. Valid: one good piece or more.
 */
export function estimateCost(input: EstimateInput): Estimate {
  requireCostedPart(input.part)
  const operations = routing({ ...input, times: input.rates.times })
  const model = estimateModel(input, operations)
  const sample = input.sample ?? defaultSampleRun
  const draws = sampleCostModel(model, sample)
  const starts = startsOutlook(input.pieceCount, model.yieldFraction)
  const costCents = summariseDraws(draws.costCents)
  return {
    way: input.way,
    pieceCount: input.pieceCount,
    operations,
    lines: estimateLines(model, starts),
    likelyCents: wholeCents(costAtCents(model, starts.likely, ({ quantity }) => quantity.likely)),
    costCents,
    costPerPieceCents: {
      p10: costCents.p10 / input.pieceCount,
      p50: costCents.p50 / input.pieceCount,
      mean: costCents.mean / input.pieceCount,
      p90: costCents.p90 / input.pieceCount,
    },
    closedForm: closedFormOf(model),
    labourHours: labourHours(model, starts),
    days: {
      low: daysAt(model, input.pieceCount, ({ quantity }) => quantity.low),
      likely: daysAt(model, starts.likely, ({ quantity }) => quantity.likely),
      high: daysAt(model, starts.p90, ({ quantity }) => quantity.high),
    },
    sampledDays: summariseDraws(draws.days),
    starts,
    model,
    sample,
  }
}

/** The cost model of an estimate without sampling it: what a break-even over many quantities asks for. */
export function estimateModel(
  input: EstimateInput,
  operations: readonly Operation[] = routing({ ...input, times: input.rates.times }),
): CostModel {
  if (!Number.isInteger(input.pieceCount) || input.pieceCount < 1) {
    throw new RangeError(`An order is for one piece or more, not ${input.pieceCount}.`)
  }
  return {
    goodPieces: input.pieceCount,
    yieldFraction: input.firstPassYieldFraction ?? input.rates.firstPassYieldFraction,
    learning: input.rates.learning,
    overheadFactor: input.rates.overheadFactor,
    contingencyFraction: input.rates.contingencyFraction,
    hoursPerDay: input.rates.hoursPerDay,
    items: estimateItems(input, operations),
  }
}

/**
 * Starts to expect, rounded-up likely number and the number that is enough in nine jobs out of ten.
 * Source: negative binomial, see yield.ts.
 */
export function startsOutlook(pieceCount: number, yieldFraction: number): StartsOutlook {
  const expected = expectedStarts(pieceCount, yieldFraction)
  return {
    expected,
    sd: Math.sqrt(startsVariance(pieceCount, yieldFraction)),
    likely: Math.ceil(expected - 1e-9),
    p90: startsForConfidence(pieceCount, yieldFraction, 0.9),
  }
}

function estimateLines(model: CostModel, starts: StartsOutlook): EstimateLine[] {
  const lines = model.items
    .filter(({ group }) => group !== 'waiting')
    .map(
      (item): EstimateLine => ({
        key: item.key,
        label: item.label,
        group: item.group,
        lowCents: wholeCents(itemCents(item, model, model.goodPieces, item.quantity.low)),
        likelyCents: wholeCents(itemCents(item, model, starts.likely, item.quantity.likely)),
        highCents: wholeCents(itemCents(item, model, starts.p90, item.quantity.high)),
        from: item.from,
      }),
    )
  const labour = sumOf(lines.filter(({ group }) => group === 'labour'))
  const overhead = factored('overhead', 'Overhead', labour, model.overheadFactor, 'of labour')
  const before = sumOf([...lines, overhead])
  const contingency = factored(
    'contingency',
    'Contingency',
    before,
    model.contingencyFraction,
    'of all above',
  )
  return [...lines, overhead, contingency]
}

function sumOf(lines: readonly EstimateLine[]): { lowCents: number; likelyCents: number; highCents: number } {
  return lines.reduce(
    (sum, line) => ({
      lowCents: sum.lowCents + line.lowCents,
      likelyCents: sum.likelyCents + line.likelyCents,
      highCents: sum.highCents + line.highCents,
    }),
    { lowCents: 0, likelyCents: 0, highCents: 0 },
  )
}

function factored(
  key: 'overhead' | 'contingency',
  label: string,
  base: { lowCents: number; likelyCents: number; highCents: number },
  factor: number,
  of: string,
): EstimateLine {
  return {
    key,
    label,
    group: key,
    lowCents: wholeCents(base.lowCents * factor),
    likelyCents: wholeCents(base.likelyCents * factor),
    highCents: wholeCents(base.highCents * factor),
    from: `${Number((100 * factor).toPrecision(4))} percent ${of}`,
  }
}

function labourHours(model: CostModel, starts: StartsOutlook): ThreePoint {
  const labour = model.items.filter(({ group }) => group !== 'waiting')
  const hours = (startCount: number, end: keyof ThreePoint): number =>
    labour.reduce(
      (sum, item) =>
        sum + (item.quantity[end] * (item.minutesPerUnit ?? 0) * countFactor(item, model, startCount)) / 60,
      0,
    )
  return {
    low: hours(model.goodPieces, 'low'),
    likely: hours(starts.likely, 'likely'),
    high: hours(starts.p90, 'high'),
  }
}

function closedFormOf(model: CostModel): { meanCents: number; sdCents: number } | null {
  const spreadWithLeast = model.items.some(
    ({ minimumCents, quantity }) => (minimumCents ?? 0) > 0 && quantity.high > quantity.low,
  )
  if (spreadWithLeast) return null
  const { meanCents, sdCents } = costMoments(model)
  return { meanCents, sdCents }
}
