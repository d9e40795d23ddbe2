import { type LearningCurve, runFactors } from '@/lib/core/cost/learning'
import { drawOf, type ThreePoint } from '@/lib/core/cost/spread'
import { startsForConfidence } from '@/lib/core/cost/yield'
import { startsProbability } from '@/lib/core/statistics/counting'
import { seedFor, uniformStream } from '@/lib/core/statistics/random'

export type CostGroup = 'labour' | 'material' | 'filler' | 'consumables' | 'tooling' | 'outside' | 'waiting'

/** How an item grows with the job: once, with each start, each good piece, or with starts past those already paid for. */
export type CostCount =
  | { readonly kind: 'job' }
  | { readonly kind: 'start'; readonly learns: boolean }
  | { readonly kind: 'good'; readonly learns: boolean }
  | { readonly kind: 'startBeyond'; readonly includedStarts: number }
  | { readonly kind: 'startBatch'; readonly piecesPerBatch: number }
  | { readonly kind: 'goodBatch'; readonly piecesPerBatch: number }

/** One thing that costs money or time: a spread quantity, what a unit of it costs, and how often it comes. */
export interface CostItem {
  readonly key: string
  readonly label: string
  readonly group: CostGroup
  readonly quantity: ThreePoint
  readonly centsPerUnit: number
  readonly count: CostCount
  /** Least charge of the item whatever the count. */
  readonly minimumCents?: number
  /** Working minutes or days that a unit takes out of the calendar; absent: none. */
  readonly minutesPerUnit?: number
  readonly daysPerUnit?: number
  readonly from: string
}

/** A whole cost as data: small, plain, and able to be sampled again with the same answer. */
export interface CostModel {
  readonly goodPieces: number
  readonly yieldFraction: number
  readonly learning: LearningCurve
  readonly overheadFactor: number
  readonly contingencyFraction: number
  readonly hoursPerDay: number
  readonly items: readonly CostItem[]
}

export interface CostDraws {
  readonly costCents: Float64Array
  readonly days: Float64Array
  readonly starts: Float64Array
}

export interface SampleRun {
  readonly seed: number
  readonly drawCount: number
}

/** Draws and seed used where nobody chose others. */
export const defaultSampleRun: SampleRun = { seed: 20_260_101, drawCount: 10_000 }

/**
 * Cost and working days of a job, drawn many times.
 *   starts from the negative binomial; each item's quantity from its PERT spread, on a stream of its own named by its key;
 *   cost = (labour (1 + overhead) + rest) (1 + contingency);  days = minutes / (60 hours a day) + days
 * Source: Monte Carlo method, JCGM 101:2008. Valid: items independent of each other; two models with the same seed share the luck of
 * items with the same key, so their difference is a paired one.
 */
export function sampleCostModel(model: CostModel, run: SampleRun = defaultSampleRun): CostDraws {
  requireModel(model)
  const { drawCount } = run
  const costCents = new Float64Array(drawCount)
  const days = new Float64Array(drawCount)
  const starts = sampleStarts(model, run)
  const mostStarts = starts.reduce((most, count) => Math.max(most, count), model.goodPieces)
  for (const item of model.items) {
    const factors = countFactors(item.count, model, mostStarts)
    const weight = moneyWeight(item, model)
    const daysEach = (item.minutesPerUnit ?? 0) / (60 * model.hoursPerDay) + (item.daysPerUnit ?? 0)
    const leastCents = item.minimumCents ?? 0
    const centsOf = (units: number): number => weight * Math.max(units * item.centsPerUnit, leastCents)
    if (item.quantity.high === item.quantity.low) {
      // Without a spread of its own an item costs the same in every order of so many starts.
      const unitsAt = factors.map((factor) => factor * item.quantity.low)
      const centsAt = unitsAt.map(centsOf)
      for (let i = 0; i < drawCount; i += 1) {
        const n = starts[i] ?? 0
        costCents[i] = (costCents[i] ?? 0) + (centsAt[n] ?? 0)
        days[i] = (days[i] ?? 0) + (unitsAt[n] ?? 0) * daysEach
      }
      continue
    }
    const draw = drawOf({ shape: 'pert', ...item.quantity })
    const next = uniformStream(seedFor(run.seed, item.key))
    for (let i = 0; i < drawCount; i += 1) {
      const units = draw(next()) * (factors[starts[i] ?? 0] ?? 0)
      costCents[i] = (costCents[i] ?? 0) + centsOf(units)
      days[i] = (days[i] ?? 0) + units * daysEach
    }
  }
  return { costCents, days, starts }
}

/**
 * Mean and standard deviation of cost and days without sampling.
 *   over the starts n:  E = sum P(n) m(n),  Var = sum P(n) v(n) + sum P(n) (m(n) - E)^2
 *   m(n), v(n) sums of the items' PERT means and variances times count factors and their squares
 * Source: law of total variance. Valid: exact where no item with a spread has a least charge; refused there.
 */
export function costMoments(model: CostModel): {
  meanCents: number
  sdCents: number
  meanDays: number
  sdDays: number
} {
  requireModel(model)
  const mostStarts = lastStart(model)
  const chances = startChances(model, mostStarts)
  const cents = { mean: new Float64Array(mostStarts + 1), variance: new Float64Array(mostStarts + 1) }
  const days = { mean: new Float64Array(mostStarts + 1), variance: new Float64Array(mostStarts + 1) }
  for (const item of model.items) {
    const { low, likely, high } = item.quantity
    const mean = (low + 4 * likely + high) / 6
    const variance = ((mean - low) * (high - mean)) / 7
    const leastCents = item.minimumCents ?? 0
    if (leastCents > 0 && high > low) {
      throw new RangeError(
        `"${item.label}" has a spread and a least charge: its mean is known by sampling only.`,
      )
    }
    const factors = countFactors(item.count, model, mostStarts)
    const weight = moneyWeight(item, model)
    const daysEach = (item.minutesPerUnit ?? 0) / (60 * model.hoursPerDay) + (item.daysPerUnit ?? 0)
    for (let n = model.goodPieces; n <= mostStarts; n += 1) {
      const factor = factors[n] ?? 0
      const itemCents = Math.max(mean * factor * item.centsPerUnit, leastCents)
      cents.mean[n] = (cents.mean[n] ?? 0) + weight * itemCents
      cents.variance[n] = (cents.variance[n] ?? 0) + variance * (weight * factor * item.centsPerUnit) ** 2
      days.mean[n] = (days.mean[n] ?? 0) + mean * factor * daysEach
      days.variance[n] = (days.variance[n] ?? 0) + variance * (factor * daysEach) ** 2
    }
  }
  const money = mixed(chances, cents)
  const time = mixed(chances, days)
  return { meanCents: money.mean, sdCents: money.sd, meanDays: time.mean, sdDays: time.sd }
}

/**
 * Cost of the job with each item's quantity and the starts given.
 *   (labour (1 + overhead) + rest) (1 + contingency)
 * Valid: whole starts of at least the good pieces.
 */
export function costAtCents(
  model: CostModel,
  starts: number,
  quantityOf: (item: CostItem) => number,
): number {
  return model.items.reduce(
    (sum, item) => sum + moneyWeight(item, model) * itemCents(item, model, starts, quantityOf(item)),
    0,
  )
}

/** Working days of the job with each item's quantity and the starts given. */
export function daysAt(model: CostModel, starts: number, quantityOf: (item: CostItem) => number): number {
  return model.items.reduce((sum, item) => {
    const units = quantityOf(item) * (countFactors(item.count, model, starts)[starts] ?? 0)
    return sum + units * ((item.minutesPerUnit ?? 0) / (60 * model.hoursPerDay) + (item.daysPerUnit ?? 0))
  }, 0)
}

/** Cost of one item before overhead and contingency, at given starts and quantity a time. */
export function itemCents(item: CostItem, model: CostModel, starts: number, quantity: number): number {
  const units = quantity * (countFactors(item.count, model, starts)[starts] ?? 0)
  return Math.max(units * item.centsPerUnit, item.minimumCents ?? 0)
}

/** How many times an item's quantity comes at given starts, learning counted. */
export function countFactor(item: CostItem, model: CostModel, starts: number): number {
  return countFactors(item.count, model, starts)[starts] ?? 0
}

function countFactors(count: CostCount, model: CostModel, mostStarts: number): Float64Array {
  const factors = new Float64Array(mostStarts + 1)
  const curve = { ...model.learning }
  switch (count.kind) {
    case 'job':
      return factors.fill(1)
    case 'start':
      return count.learns ? runFactors(mostStarts, curve) : factors.map((_, starts) => starts)
    case 'good':
      return factors.fill(
        count.learns ? (runFactors(model.goodPieces, curve)[model.goodPieces] ?? 0) : model.goodPieces,
      )
    case 'startBeyond':
      return factors.map((_, starts) => Math.max(0, starts - count.includedStarts))
    case 'startBatch':
      return factors.map((_, starts) => Math.ceil(starts / count.piecesPerBatch))
    case 'goodBatch':
      return factors.fill(Math.ceil(model.goodPieces / count.piecesPerBatch))
  }
}

function moneyWeight(item: CostItem, model: CostModel): number {
  const overhead = item.group === 'labour' ? 1 + model.overheadFactor : 1
  return overhead * (1 + model.contingencyFraction)
}

function sampleStarts(model: CostModel, run: SampleRun): Float64Array {
  const mostStarts = lastStart(model)
  const chances = startChances(model, mostStarts)
  const cumulative: number[] = []
  let sum = 0
  for (let n = model.goodPieces; n <= mostStarts; n += 1) {
    sum += chances[n] ?? 0
    cumulative.push(sum)
  }
  const next = uniformStream(seedFor(run.seed, 'starts'))
  return Float64Array.from({ length: run.drawCount }, () => {
    const u = next()
    const place = cumulative.findIndex((chance) => u <= chance)
    return model.goodPieces + (place === -1 ? cumulative.length - 1 : place)
  })
}

function startChances(model: CostModel, mostStarts: number): Float64Array {
  const chances = new Float64Array(mostStarts + 1)
  for (let n = model.goodPieces; n <= mostStarts; n += 1) {
    chances[n] = startsProbability(n, model.goodPieces, model.yieldFraction)
  }
  return chances
}

function lastStart(model: CostModel): number {
  return startsForConfidence(model.goodPieces, model.yieldFraction, 1 - 1e-10)
}

function mixed(
  chances: Float64Array,
  part: { mean: Float64Array; variance: Float64Array },
): { mean: number; sd: number } {
  let mean = 0
  chances.forEach((chance, n) => {
    mean += chance * (part.mean[n] ?? 0)
  })
  let variance = 0
  chances.forEach((chance, n) => {
    variance += chance * ((part.variance[n] ?? 0) + ((part.mean[n] ?? 0) - mean) ** 2)
  })
  return { mean, sd: Math.sqrt(variance) }
}

function requireModel(model: CostModel): void {
  if (!Number.isInteger(model.goodPieces) || model.goodPieces < 1) {
    throw new RangeError(`A job makes one good piece or more, not ${model.goodPieces}.`)
  }
  if (!(model.yieldFraction > 0 && model.yieldFraction <= 1)) {
    throw new RangeError(`A first-pass yield lies above 0 and up to 1, not ${model.yieldFraction}.`)
  }
  if (!(model.hoursPerDay > 0)) throw new RangeError(`A working day has hours, not ${model.hoursPerDay}.`)
}
