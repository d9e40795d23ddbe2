import { breakEven } from '@/lib/core/cost/break-even'
import { type Comparison, type Contender, compareWays } from '@/lib/core/cost/compare'
import { costAtCents } from '@/lib/core/cost/cost-model'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import { type Estimate, estimateModel, startsOutlook } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { landedCost, type OutsideQuote, receivingRatesOf } from '@/lib/core/cost/landed'
import type { OperationKey } from '@/lib/core/cost/operation'
import { outsideAnswerModel } from '@/lib/core/cost/outside-answer'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import { type TornadoBar, tornado } from '@/lib/core/cost/tornado'
import type { WayKey } from '@/lib/core/cost/ways'
import type { WayWord } from '@/lib/core/ways/judge-spec'

/** A way of making it here, ready to be weighed. */
export type HomeContender = {
  way: Exclude<WayKey, 'outside'>
  name: string
  word: WayWord
  because: string
  input: EstimateInput
  estimate: Estimate
  facts: ContenderFacts
}

/** An outside answer, ready to be weighed. */
export type OutsideContender = { askId: number; name: string; quote: OutsideQuote; facts: ContenderFacts }

/** What stands beside the money: what comes out, and what stays. */
export type ContenderFacts = {
  endTemper: string | null
  yieldMPa: number | null
  tensileMPa: number | null
  angleToleranceDeg: number | null
  leavesBehind: string[]
  /** No bar has a price, so that the cost is without its tube. */
  withoutTube: boolean
  /** Prices out of date, tube not priced, a radius changed: what whoever decides should know. */
  remarks: string[]
}

export type WeighedRow = Comparison['contenders'][number] & {
  way: WayKey
  askId: number | null
  word: WayWord
  because: string
  facts: ContenderFacts
}

/** The whole comparison as it stood, plain data: what a decision keeps. */
export type Weighed = {
  pieceCount: number
  dueOn: string | null
  workingDaysToDue: number | null
  rows: WeighedRow[]
  cannot: { way: WayKey; name: string; because: string }[]
  bestInHouseKey: string | null
  bestOutsideKey: string | null
  inHouseCheaperChance: number | null
  /** What is left out of the best and of the chance, and why: another part than drawn, a cost that lacks its tube. */
  apart: { key: string; name: string; because: string }[]
  text: string
  breakEven: { text: string; switchPieceCount: number | null; lookedUpTo: number } | null
  /** What moves the cost of the cheapest in-house way most; of the cheapest answer where none is made here. */
  tornado: { of: string; bars: TornadoBar[] } | null
}

/** What a bender who bends to our drawing does too: the ends are on it. Common practice, no source. */
const doneByBender: readonly OperationKey[] = ['trimEnds', 'mitreEnds', 'saddleEnds', 'drill']

const lookUpTo = 100

/** Every possible way and every answer on one scale. Exact given the models; the chances are sampled. */
export function weigh(question: {
  home: readonly HomeContender[]
  outside: readonly OutsideContender[]
  cannot: Weighed['cannot']
  outsidePart: CostedPart | null
  rates: ShopRates
  pieceCount: number
  today: Date
  dueOn: Date | null
}): Weighed {
  const { home, outside, outsidePart, rates, pieceCount, today, dueOn } = question
  const outsideModel = (quote: OutsideQuote, count: number) => {
    const landed = landedCost(quote, count, receivingRatesOf(rates))
    return outsidePart ? outsideAnswerModel(landed, { part: outsidePart, rates }, doneByBender) : landed.model
  }
  const contenders: Contender[] = [
    ...home.map(({ way, name, estimate }) => ({
      key: way,
      name,
      kind: 'inHouse' as const,
      model: estimate.model,
    })),
    ...outside.map(({ askId, name, quote }) => ({
      key: `ask ${askId}`,
      name,
      kind: 'outside' as const,
      model: outsideModel(quote, pieceCount),
    })),
  ]
  const workingDaysToDue = dueOn && workingDaysBetween(today, dueOn)
  const order = { pieceCount, ...(workingDaysToDue !== null && { daysToDue: workingDaysToDue }) }
  const apart = setApart(home)
  const isApart = ({ key }: { key: string }) => apart.some((one) => one.key === key)
  const { bestInHouseKey, bestOutsideKey, inHouseCheaperChance, text, ...compared } = compareWays(
    contenders.filter((one) => !isApart(one)),
    order,
  )
  const beside = contenders.filter(isApart).map((one) => ({
    ...weighedApart(one, order),
    words: apart.flatMap(({ key, because }) => (key === one.key ? [because] : [])),
  }))
  const rows = [...compared.contenders, ...beside].map((contender): WeighedRow => {
    const own = home.find(({ way }) => way === contender.key)
    const ask = outside.find(({ askId }) => `ask ${askId}` === contender.key)
    return {
      ...contender,
      way: own?.way ?? 'outside',
      askId: ask?.askId ?? null,
      word: own?.word ?? 'yes',
      because: own?.because ?? 'they gave a price',
      facts: own?.facts ?? ask?.facts ?? noFacts,
    }
  })
  const bestHome = home.find(({ way }) => way === bestInHouseKey)
  const bestOutside = outside.find(({ askId }) => `ask ${askId}` === bestOutsideKey)
  const moved = contenders.find(({ key }) => key === (bestInHouseKey ?? bestOutsideKey))
  const even =
    bestHome && bestOutside
      ? breakEven(
          (count) => homeCents(bestHome.input, count),
          (count) => {
            const model = outsideModel(bestOutside.quote, count)
            return costAtCents(model, count, ({ quantity }) => quantity.likely)
          },
          lookUpTo,
        )
      : null
  return {
    pieceCount,
    dueOn: dueOn ? dueOn.toISOString().slice(0, 10) : null,
    workingDaysToDue,
    rows,
    cannot: question.cannot,
    bestInHouseKey,
    bestOutsideKey,
    inHouseCheaperChance,
    apart,
    text,
    breakEven: even && {
      text: even.text,
      switchPieceCount: even.switchPieceCount,
      lookedUpTo: even.lookedUpTo,
    },
    tornado: moved ? { of: moved.name, bars: tornado(moved.model, 8) } : null,
  }
}

/**
 * Ways that do not compete. Welded corners are another part than a bend: cheaper is no answer until the customer has
 * agreed to them. A cost without its tube would win for what it lacks. Where nothing else is left both are weighed after all.
 */
function setApart(home: readonly HomeContender[]): Weighed['apart'] {
  const apart = home.flatMap(({ way, name, facts }): Weighed['apart'] => {
    if (way === 'mitredWelded') return [{ key: way, name, because: 'not the part as drawn' }]
    return facts.withoutTube ? [{ key: way, name, because: 'no tube in its cost' }] : []
  })
  if (apart.length < home.length) return apart
  const drawn = apart.filter(({ key }) => key === 'mitredWelded')
  return drawn.length < home.length ? drawn : []
}

/** One weighed against nobody: its chance of being the cheapest is none, since it does not compete. */
function weighedApart(contender: Contender, order: { pieceCount: number; daysToDue?: number }) {
  const [alone] = compareWays([contender], order).contenders
  if (!alone) throw new RangeError('One contender gives one row.')
  return { ...alone, cheapestChance: 0 }
}

const noFacts: ContenderFacts = {
  endTemper: null,
  yieldMPa: null,
  tensileMPa: null,
  angleToleranceDeg: null,
  leavesBehind: [],
  withoutTube: false,
  remarks: [],
}

/** Cost here of another count, its tube taken in proportion: cutting is not planned anew for each. */
function homeCents(input: EstimateInput, pieceCount: number): number {
  const starts = startsOutlook(
    pieceCount,
    input.firstPassYieldFraction ?? input.rates.firstPassYieldFraction,
  ).likely
  const { material } = input
  const share = starts / material.plannedStarts
  const model = estimateModel({
    ...input,
    pieceCount,
    material: {
      ...material,
      plannedStarts: starts,
      plannedCents: material.plannedCents * share,
    },
  })
  return costAtCents(model, starts, ({ quantity }) => quantity.likely)
}

/** Days worked from one day to another, five of seven; 0 where the day is past. Common practice, no source. */
export function workingDaysBetween(from: Date, to: Date): number {
  let count = 0
  for (let day = from.getTime() + 86_400_000; day <= to.getTime(); day += 86_400_000) {
    const weekday = new Date(day).getUTCDay()
    if (weekday !== 0 && weekday !== 6) count += 1
  }
  return count
}

/**
 * Short marks of what a comparison was made from, part by part, so that a change can be named. `all` is of the numbers and
 * facts that were weighed: while it stays, nothing that matters has changed, whatever was poured or sawn meanwhile.
 */
export type Marks = {
  part: string
  setUp: string
  rates: string
  estimate: string
  asks: string
  rack: string
  tools: string
  all: string
}

const markNames: Readonly<Record<Exclude<keyof Marks, 'all'>, string>> = {
  part: 'the part',
  setUp: 'its set-up',
  rates: 'the rates',
  estimate: 'the estimate',
  asks: 'an outside answer',
  rack: 'what its tube costs',
  tools: 'the tools, the filler or the material',
}

/** The marks as one text, as a decision keeps them. */
export function markText(marks: Marks): string {
  return Object.entries(marks)
    .map(([name, mark]) => `${name}:${mark}`)
    .join(' ')
}

function marksIn(text: string): Map<string, string> {
  return new Map(
    text.split(' ').map((word) => [word.slice(0, word.indexOf(':')), word.slice(word.indexOf(':') + 1)]),
  )
}

/** Whether a comparison that was seen is still the one that the records make. */
export function isSameComparison(seen: string, now: Marks): boolean {
  return marksIn(seen).get('all') === now.all
}

/** What changed since, in words; empty where nothing did that the comparison is made from. */
export function changedSince(
  kept: { inputsHash: string; weighed: Weighed },
  now: Marks,
  weighed: Weighed,
): string[] {
  const then = marksIn(kept.inputsHash)
  const otherwise = 'what it is made from'
  // Kept before the whole was marked: the numbers themselves say whether anything moved.
  if (!then.has('all')) return costMoves(kept.weighed, weighed).length > 0 ? [otherwise] : []
  if (then.get('all') === now.all) return []
  const named = Object.entries(markNames).flatMap(([name, words]) =>
    then.get(name) === now[name as keyof Marks] ? [] : [words],
  )
  return named.length > 0 ? named : [otherwise]
}

/** A way or an answer whose cost a piece is another one by now; null on the side where it does not stand. */
export type CostMove = { name: string; beforeCents: number | null; afterCents: number | null }

export function costMoves(before: Weighed, after: Weighed): CostMove[] {
  const each = (weighed: Weighed) =>
    new Map(
      weighed.rows.map((row) => [row.key, { name: row.name, cents: Math.round(row.costPerPieceCents.mean) }]),
    )
  const [old, now] = [each(before), each(after)]
  return [...new Set([...old.keys(), ...now.keys()])].flatMap((key): CostMove[] => {
    const [was, is] = [old.get(key), now.get(key)]
    if (was?.cents === is?.cents) return []
    return [
      { name: is?.name ?? was?.name ?? key, beforeCents: was?.cents ?? null, afterCents: is?.cents ?? null },
    ]
  })
}
