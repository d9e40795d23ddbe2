import { betaQuantile } from '@/lib/core/statistics/beta'
import { normalQuantile, roughNormalQuantile } from '@/lib/core/statistics/normal'
import { uniformStream } from '@/lib/core/statistics/random'

/** A quantity as the shop knows it: hardly less, most likely, hardly more. Unit as its name says. */
export interface ThreePoint {
  readonly low: number
  readonly likely: number
  readonly high: number
}

/** A quantity with its spread. PERT is the beta distribution with weight 4 on the likely value. */
export type Spread =
  | ({ readonly shape: 'triangular' | 'pert' } & ThreePoint)
  | { readonly shape: 'logNormal'; readonly median: number; readonly logSd: number }

/** A three-point quantity with no spread. */
export function fixed(value: number): ThreePoint {
  return { low: value, likely: value, high: value }
}

/** A three-point quantity times a factor (a negative factor turns it over). */
export function scaled(point: ThreePoint, factor: number): ThreePoint {
  const low = point.low * factor
  const high = point.high * factor
  return factor >= 0
    ? { low, likely: point.likely * factor, high }
    : { low: high, likely: point.likely * factor, high: low }
}

/** Two three-point quantities added end to end: the ends of the sum's range, not its percentiles. */
export function added(one: ThreePoint, other: ThreePoint): ThreePoint {
  return { low: one.low + other.low, likely: one.likely + other.likely, high: one.high + other.high }
}

/**
 * Mean of a spread.
 *   triangular (a + m + b) / 3;  PERT (a + 4m + b) / 6;  log-normal median exp(sd^2 / 2)
 * Source: definitions; PERT from D. G. Malcolm et al., Operations Research 7 (1959) 646. Valid: a <= m <= b.
 */
export function spreadMean(spread: Spread): number {
  if (spread.shape === 'logNormal') {
    requireLogNormal(spread)
    return spread.median * Math.exp(spread.logSd ** 2 / 2)
  }
  requireOrder(spread)
  return spread.shape === 'triangular'
    ? (spread.low + spread.likely + spread.high) / 3
    : (spread.low + 4 * spread.likely + spread.high) / 6
}

/**
 * Variance of a spread, of the very distribution that is sampled.
 *   triangular (a2 + m2 + b2 - am - ab - bm) / 18;  PERT (mu - a)(b - mu) / 7;  log-normal mean^2 (exp(sd^2) - 1)
 * Source: definitions. The textbook PERT variance ((b - a) / 6)^2 is that of another distribution; see `textbookPertVariance`.
 */
export function spreadVariance(spread: Spread): number {
  const mean = spreadMean(spread)
  if (spread.shape === 'logNormal') return mean ** 2 * Math.expm1(spread.logSd ** 2)
  const { low: a, likely: m, high: b } = spread
  if (spread.shape === 'pert') return ((mean - a) * (b - mean)) / 7
  return (a * a + m * m + b * b - a * m - a * b - b * m) / 18
}

/** The variance that planning textbooks print beside the PERT mean: ((b - a) / 6)^2. Source: as `spreadMean`. */
export function textbookPertVariance(point: ThreePoint): number {
  return ((point.high - point.low) / 6) ** 2
}

/**
 * The value that a share p of draws stays below.
 *   triangular a + sqrt(p (b-a)(m-a)) up to p = (m-a)/(b-a), else b - sqrt((1-p)(b-a)(b-m));
 *   PERT a + (b-a) Beta^-1(p; 1 + 4(m-a)/(b-a), 1 + 4(b-m)/(b-a));  log-normal median exp(sd z_p)
 * Source: definitions. Valid: 0 < p < 1.
 */
export function spreadQuantile(spread: Spread, p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`A share of draws lies between 0 and 1, not ${p}.`)
  if (spread.shape === 'logNormal') {
    requireLogNormal(spread)
    return spread.median * Math.exp(spread.logSd * normalQuantile(p))
  }
  requireOrder(spread)
  const width = spread.high - spread.low
  if (width === 0) return spread.low
  if (spread.shape === 'triangular') return triangularQuantile(spread, p)
  const { alpha, beta } = pertShape(spread)
  return spread.low + width * betaQuantile(p, alpha, beta)
}

/**
 * A function from a uniform number in (0, 1) to a draw of the spread, made for thousands of calls.
 *   triangular and log-normal by their inverse; PERT by a table of the inverse at 1025 shares, straight between them
 * Valid: the table's mean and variance agree with the closed form to better than 0.1 percent.
 */
export function drawOf(spread: Spread): (uniform: number) => number {
  if (spread.shape === 'logNormal') {
    requireLogNormal(spread)
    const { median, logSd } = spread
    return (uniform) => median * Math.exp(logSd * roughNormalQuantile(uniform))
  }
  requireOrder(spread)
  const { low, high } = spread
  const width = high - low
  if (width === 0) return () => low
  if (spread.shape === 'triangular') return (uniform) => triangularQuantile(spread, uniform)
  const table = pertTable(spread)
  return (uniform) => {
    const place = uniform * tableSteps
    const index = Math.floor(place)
    const from = table[index] ?? 0
    const to = table[index + 1] ?? 1
    return low + width * (from + (place - index) * (to - from))
  }
}

/** Draws of one spread, the same for the same seed. Valid: whole seed, one draw or more. */
export function sampleSpread(
  spread: Spread,
  run: { readonly seed: number; readonly drawCount: number },
): Float64Array {
  const next = uniformStream(run.seed)
  const draw = drawOf(spread)
  return Float64Array.from({ length: run.drawCount }, () => draw(next()))
}

/**
 * A percentile of draws.
 *   value at rank p (n - 1) of the sorted draws, straight between neighbours
 * Source: R. J. Hyndman & Y. Fan, American Statistician 50 (1996) 361, definition 7. Valid: sorted draws, 0 <= p <= 1.
 */
export function percentileOfSorted(sortedDraws: ArrayLike<number>, p: number): number {
  if (sortedDraws.length === 0) throw new RangeError('A percentile needs at least one draw.')
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A percentile lies between 0 and 1, not ${p}.`)
  const place = p * (sortedDraws.length - 1)
  const index = Math.floor(place)
  const from = sortedDraws[index] ?? 0
  const to = sortedDraws[Math.min(index + 1, sortedDraws.length - 1)] ?? from
  return from + (place - index) * (to - from)
}

/** What a set of draws says, in the unit of the draws; the error is that of the mean. */
export interface DrawSummary {
  readonly drawCount: number
  readonly mean: number
  readonly sd: number
  readonly standardError: number
  readonly p10: number
  readonly p50: number
  readonly p90: number
}

/** Mean, standard deviation (n - 1), error of the mean s / sqrt(n), and the 10th, 50th and 90th percentile of draws. */
export function summariseDraws(draws: Float64Array): DrawSummary {
  const drawCount = draws.length
  if (drawCount < 2) throw new RangeError('A spread is told from two draws or more.')
  let mean = 0
  for (const draw of draws) mean += draw
  mean /= drawCount
  let squares = 0
  for (const draw of draws) squares += (draw - mean) ** 2
  const sd = Math.sqrt(squares / (drawCount - 1))
  const sorted = Float64Array.from(draws).sort()
  return {
    drawCount,
    mean,
    sd,
    standardError: sd / Math.sqrt(drawCount),
    p10: percentileOfSorted(sorted, 0.1),
    p50: percentileOfSorted(sorted, 0.5),
    p90: percentileOfSorted(sorted, 0.9),
  }
}

const tableSteps = 1024
const gridSteps = 2048

/** ln(i / 2 gridSteps), shared by every table: x^(4w) (1-x)^(4-4w) then costs one exponential a place. */
const gridLogs = Float64Array.from({ length: 2 * gridSteps + 1 }, (_, i) => Math.log(i / (2 * gridSteps)))

function pertTable(point: ThreePoint): Float64Array {
  const lean = Number(((point.likely - point.low) / (point.high - point.low)).toPrecision(12))
  const known = tablesByLean.get(lean)
  if (known) return known
  if (tablesByLean.size >= mostTables) tablesByLean.clear()
  const table = tableOfLean(lean)
  tablesByLean.set(lean, table)
  return table
}

/** The table depends on where the likely value lies between the ends alone: an estimate of three quantities asks for the same ones. */
const tablesByLean = new Map<number, Float64Array>()
const mostTables = 400

function tableOfLean(lean: number): Float64Array {
  const density = (place: number): number => {
    if (place === 0) return lean === 0 ? 1 : 0
    if (place === 2 * gridSteps) return lean === 1 ? 1 : 0
    const fromLow = gridLogs[place] ?? 0
    const fromHigh = gridLogs[2 * gridSteps - place] ?? 0
    return Math.exp(4 * (lean * fromLow + (1 - lean) * fromHigh))
  }
  const cumulative = new Float64Array(gridSteps + 1)
  let before = density(0)
  for (let i = 1; i <= gridSteps; i += 1) {
    const here = density(2 * i)
    cumulative[i] = (cumulative[i - 1] ?? 0) + before + 4 * density(2 * i - 1) + here
    before = here
  }
  const total = cumulative[gridSteps] ?? 1
  const table = new Float64Array(tableSteps + 1)
  let cell = 0
  for (let i = 1; i < tableSteps; i += 1) {
    const wanted = (i / tableSteps) * total
    while ((cumulative[cell + 1] ?? total) < wanted) cell += 1
    const from = cumulative[cell] ?? 0
    const to = cumulative[cell + 1] ?? total
    table[i] = (cell + (wanted - from) / (to - from)) / gridSteps
  }
  table[tableSteps] = 1
  return table
}

function pertShape(point: ThreePoint): { alpha: number; beta: number } {
  const width = point.high - point.low
  return {
    alpha: 1 + (4 * (point.likely - point.low)) / width,
    beta: 1 + (4 * (point.high - point.likely)) / width,
  }
}

function triangularQuantile(point: ThreePoint, p: number): number {
  const { low: a, likely: m, high: b } = point
  return p * (b - a) <= m - a
    ? a + Math.sqrt(p * (b - a) * (m - a))
    : b - Math.sqrt((1 - p) * (b - a) * (b - m))
}

function requireOrder(point: ThreePoint): void {
  if (!(point.low <= point.likely && point.likely <= point.high)) {
    throw new RangeError(`Low, likely and high go upwards, not ${point.low}, ${point.likely}, ${point.high}.`)
  }
}

function requireLogNormal(spread: { readonly median: number; readonly logSd: number }): void {
  if (!(spread.median > 0 && spread.logSd >= 0)) {
    throw new RangeError('A log-normal spread has a median above zero and a spread of zero or more.')
  }
}
