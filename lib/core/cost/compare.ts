import { type CostModel, defaultSampleRun, type SampleRun, sampleCostModel } from '@/lib/core/cost/cost-model'
import { type DrawSummary, summariseDraws } from '@/lib/core/cost/spread'

/** One way or one outside answer to set beside the others. */
export interface Contender {
  readonly key: string
  readonly name: string
  readonly kind: 'inHouse' | 'outside'
  readonly model: CostModel
}

export type RiskWord =
  | 'surely'
  | 'very likely'
  | 'likely'
  | 'even'
  | 'unlikely'
  | 'very unlikely'
  | 'hardly ever'

/**
 * The word for a chance.
 *   99 surely, 90 very likely, 66 likely, 33 even, 10 unlikely, 1 very unlikely, else hardly ever (percent, from)
 * Source: bands of the IPCC guidance note on uncertainty (2010), table 1; words partly ours. Valid: 0..1.
 */
export function riskWord(chance: number): RiskWord {
  if (!(chance >= 0 && chance <= 1)) throw new RangeError(`A chance lies between 0 and 1, not ${chance}.`)
  if (chance >= 0.99) return 'surely'
  if (chance >= 0.9) return 'very likely'
  if (chance >= 0.66) return 'likely'
  if (chance >= 0.33) return 'even'
  if (chance >= 0.1) return 'unlikely'
  return chance >= 0.01 ? 'very unlikely' : 'hardly ever'
}

/** The word for a chance with what it is a chance of: 'likely on time', 'unlikely to be on time'. */
export function riskPhrase(chance: number, what: string): string {
  const word = riskWord(chance)
  if (word === 'even') return `as likely as not ${what}`
  return word.endsWith('unlikely') ? `${word} to be ${what}` : `${word} ${what}`
}

export interface ComparedContender {
  readonly key: string
  readonly name: string
  readonly kind: 'inHouse' | 'outside'
  readonly costCents: DrawSummary
  readonly costPerPieceCents: {
    readonly p10: number
    readonly p50: number
    readonly mean: number
    readonly p90: number
  }
  readonly days: DrawSummary
  /** Chance of being done by the due date; null where there is none. */
  readonly onTimeChance: number | null
  /** Chance of being the cheapest of all. */
  readonly cheapestChance: number
  readonly words: readonly string[]
}

export interface Comparison {
  readonly pieceCount: number
  readonly contenders: readonly ComparedContender[]
  /** Cheapest by mean on each side; null where a side has none. */
  readonly bestInHouseKey: string | null
  readonly bestOutsideKey: string | null
  /** Chance that the best in-house way costs less than the best outside answer, by pairs of draws. */
  readonly inHouseCheaperChance: number | null
  /** What going outside costs more on average (negative: less). */
  readonly outsideExtraCents: DrawSummary | null
  readonly text: string
  readonly sample: SampleRun
}

/**
 * Ways and outside answers on one scale.
 *   each model is sampled with the same seed, so what they share (an operation, the starts) goes the same way in each pair of draws;
 *   chances are shares of draws, with standard error sqrt(p (1-p) / n)
 * Source: Monte Carlo with common random numbers, A. M. Law, Simulation Modeling and Analysis, section 11.2. Valid: one contender or more, same order size.
 */
export function compareWays(
  contenders: readonly Contender[],
  question: { readonly pieceCount: number; readonly daysToDue?: number; readonly sample?: SampleRun },
): Comparison {
  const sample = question.sample ?? defaultSampleRun
  const drawn = contenders.map((contender) => ({
    contender,
    draws: sampleCostModel(contender.model, sample),
  }))
  const cheapest = cheapestShares(drawn.map(({ draws }) => draws.costCents))
  const compared = drawn.map(({ contender, draws }, index): ComparedContender => {
    const costCents = summariseDraws(draws.costCents)
    const onTimeChance = question.daysToDue === undefined ? null : shareAtMost(draws.days, question.daysToDue)
    const cheapestChance = cheapest[index] ?? 0
    return {
      key: contender.key,
      name: contender.name,
      kind: contender.kind,
      costCents,
      costPerPieceCents: {
        p10: costCents.p10 / question.pieceCount,
        p50: costCents.p50 / question.pieceCount,
        mean: costCents.mean / question.pieceCount,
        p90: costCents.p90 / question.pieceCount,
      },
      days: summariseDraws(draws.days),
      onTimeChance,
      cheapestChance,
      words: contenderWords(onTimeChance, cheapestChance, contenders.length),
    }
  })
  const bestInHouse = best(compared, 'inHouse')
  const bestOutside = best(compared, 'outside')
  const inHouse = drawn.find(({ contender }) => contender.key === bestInHouse?.key)?.draws.costCents
  const outside = drawn.find(({ contender }) => contender.key === bestOutside?.key)?.draws.costCents
  const difference = inHouse && outside ? outside.map((cents, index) => cents - (inHouse[index] ?? 0)) : null
  const chance = difference ? 1 - shareAtMost(difference, 0) : null
  return {
    pieceCount: question.pieceCount,
    contenders: compared,
    bestInHouseKey: bestInHouse?.key ?? null,
    bestOutsideKey: bestOutside?.key ?? null,
    inHouseCheaperChance: chance,
    outsideExtraCents: difference ? summariseDraws(difference) : null,
    text: comparisonText(bestInHouse, bestOutside, chance),
    sample,
  }
}

/** Share of draws that are at most a value. */
export function shareAtMost(draws: Float64Array, value: number): number {
  let count = 0
  for (const draw of draws) if (draw <= value) count += 1
  return count / draws.length
}

function cheapestShares(costs: readonly Float64Array[]): number[] {
  const wins = costs.map(() => 0)
  const drawCount = costs[0]?.length ?? 0
  for (let i = 0; i < drawCount; i += 1) {
    let winner = 0
    costs.forEach((cost, index) => {
      if ((cost[i] ?? 0) < (costs[winner]?.[i] ?? 0)) winner = index
    })
    wins[winner] = (wins[winner] ?? 0) + 1
  }
  return wins.map((count) => count / drawCount)
}

function best(compared: readonly ComparedContender[], kind: Contender['kind']): ComparedContender | null {
  return compared
    .filter((one) => one.kind === kind)
    .reduce<ComparedContender | null>(
      (least, one) => (least && least.costCents.mean <= one.costCents.mean ? least : one),
      null,
    )
}

function contenderWords(onTimeChance: number | null, cheapestChance: number, count: number): string[] {
  const words: string[] = []
  if (onTimeChance !== null) words.push(`${riskPhrase(onTimeChance, 'on time')} (${inHundred(onTimeChance)})`)
  if (count > 1) words.push(`${riskPhrase(cheapestChance, 'the cheapest')} (${inHundred(cheapestChance)})`)
  return words
}

function comparisonText(
  inHouse: ComparedContender | null,
  outside: ComparedContender | null,
  chance: number | null,
): string {
  if (!inHouse && !outside) return 'nothing to compare'
  if (!outside) return 'no outside price to compare with'
  if (!inHouse || chance === null) return 'no in-house way to compare with'
  return `${inHouse.name} is ${riskPhrase(chance, 'cheaper')} than ${outside.name} (${inHundred(chance)})`
}

/** A chance as people say it: `67 in 100`, never all or none of them unless it is. */
export function inHundred(chance: number): string {
  if (chance >= 0.995 && chance < 1) return 'more than 99 in 100'
  if (chance < 0.005 && chance > 0) return 'less than 1 in 100'
  return `${Math.round(100 * chance)} in 100`
}
