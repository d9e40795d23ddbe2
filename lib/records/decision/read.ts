import 'server-only'
import { createHash } from 'node:crypto'
import { wayNames } from '@/lib/core/cost/ways'
import { compareWays } from '@/lib/core/ways/compare-ways'
import { costedPiece } from '@/lib/core/ways/costed-piece'
import type { WayAnswer } from '@/lib/core/ways/way-answer'
import { readAsksOfRevision } from '@/lib/records/ask/read'
import { changedRadiiMm, isExpired, lateWords, outsideQuoteOf } from '@/lib/records/ask/rules'
import {
  type ContenderFacts,
  type HomeContender,
  type Marks,
  type OutsideContender,
  type Weighed,
  weigh,
} from '@/lib/records/decision/rules'
import { makeEstimates, readEstimateGround, readEstimates } from '@/lib/records/estimate/read'
import { askOfWay, type EstimateGround, type HomeWay, toolWords } from '@/lib/records/estimate/rules'
import { dayInZone } from '@/lib/records/quote/rules'
import { wayBases, waysQuestionOf } from '@/lib/records/way/rules'
import { db } from '@/lib/server/db'

type Answer = Awaited<ReturnType<typeof readAsksOfRevision>>[number]

const markOf = (value: unknown) =>
  createHash('sha256').update(JSON.stringify(value)).digest('base64url').slice(0, 12)

/** What of the shop's records a comparison rests on: a note on the part, or what lies in the pot, is not among it. */
function marksOf(
  ground: EstimateGround,
  weighed: { home: readonly HomeContender[]; outside: readonly OutsideContender[]; rows: Weighed['rows'] },
  answers: readonly (Answer & { expired: boolean })[],
  versions: readonly { id: number; way: string }[],
): Marks {
  const { notesText: _notes, typicalQuantity: _usual, ...revision } = ground.revision
  const { pot } = ground.tools
  const { marginPpm: _margin, priceRounding: _rounding, ...rates } = ground.rates
  return {
    part: markOf(revision),
    setUp: markOf(ground.setup),
    rates: markOf(rates),
    estimate: markOf(
      weighed.home.map(({ way }) => [way, versions.find((version) => version.way === way)?.id ?? null]),
    ),
    asks: markOf(
      answers.map((ask) => [
        ask.id,
        outsideQuoteOf(ask),
        ask.offeredRadiusMm,
        ask.conditionsText,
        ask.expired,
      ]),
    ),
    rack: markOf(
      weighed.home.map(({ way, input, facts }) => [
        way,
        input.material.plannedCents,
        input.material.extraStartCents,
        facts.withoutTube,
      ]),
    ),
    tools: markOf([{ ...ground.tools, pot: pot && { ...pot, inPotKg: 0 } }, ground.shop, ground.ownMaterial]),
    all: markOf([
      weighed.rows.map(({ key, name, word, facts, costCents, days }) => [
        key,
        name,
        word,
        facts,
        costCents,
        days,
      ]),
      weighed.home.map(({ way, input }) => [way, input.pieceCount]),
    ]),
  }
}

function factsOf(
  answer: WayAnswer | undefined,
  leavesBehind: string[],
  more: Pick<ContenderFacts, 'withoutTube' | 'remarks'>,
): ContenderFacts {
  return {
    endTemper: answer?.temper?.endTemper ?? null,
    yieldMPa: answer?.temper?.yieldMPa ?? null,
    tensileMPa: answer?.temper?.tensileMPa ?? null,
    angleToleranceDeg: answer?.tolerance.angleDeg ?? null,
    leavesBehind,
    ...more,
  }
}

/** Ways and answers of a revision weighed as the records stand now; null where there is no revision or no press. */
export async function readWeighing(
  revisionId: number,
  asked: { pieceCount: number; dueOn: Date | null },
): Promise<{ weighed: Weighed; marks: Marks; currency: string } | null> {
  const read = await readEstimateGround(revisionId)
  const question = read && waysQuestionOf(read.ground)
  if (!read || !question) return null
  const { ground } = read
  const [shop, asks, versions] = await Promise.all([
    db.shop.findUniqueOrThrow({ where: { id: 1 }, select: { timeZone: true, currency: true } }),
    readAsksOfRevision(revisionId),
    readEstimates(revisionId),
  ])
  const today = dayInZone(new Date(), shop.timeZone)
  const answers = compareWays(question)
  const bases = wayBases(ground, answers)
  const home: HomeContender[] = []
  const cannot: Weighed['cannot'] = []
  for (const basis of bases) {
    const answer = answers.find(({ way }) => way === basis.way)
    if (basis.word === 'no' || !basis.part) {
      cannot.push({ way: basis.way, name: basis.name, because: basis.because })
      continue
    }
    const ask = askOfWay(ground, basis, versions)
    const made = ask && (await makeEstimates(ground, { ...ask, quantities: [asked.pieceCount] }, bases))
    const one = made?.quantities[0]
    if (!one) continue
    home.push({
      way: basis.way satisfies HomeWay,
      name: basis.name,
      word: basis.word,
      because: basis.because,
      input: one.input,
      estimate: one.estimate,
      facts: factsOf(
        answer,
        [
          ...basis.toolsToMake.map((tool) => toolWords(tool, ground.shop.lengthUnit)),
          ...(answer?.spec
            ? [`what ${asked.pieceCount * ground.revision.bends.length} bends teach the springback`]
            : []),
        ],
        { withoutTube: one.tube.material === null, remarks: [] },
      ),
    })
  }
  const outsideAnswer = answers.find(({ way }) => way === 'outside')
  const quoted = asks
    .filter(({ status }) => status === 'quoted')
    .map((ask) => ({ ...ask, expired: isExpired(ask, today) }))
  const outside = quoted.flatMap((ask): OutsideContender[] => {
    const quote = outsideQuoteOf(ask)
    if (!quote) return []
    const remarks = [
      ask.expired ? 'their price is out of date' : '',
      changedRadiiMm(ask.offeredRadiusMm, ground.revision.bends).length > 0
        ? 'they would bend another radius than drawn'
        : '',
      ask.leadTimeDays === null ? 'no lead time given: counted as none' : '',
      ask.lateDays ? `${lateWords(ask.lateDays)}, counted in the days` : '',
      ask.conditionsText,
    ].filter((remark) => remark !== '')
    return [
      {
        askId: ask.id,
        name: ask.source.name,
        quote,
        facts: factsOf(outsideAnswer, [], { withoutTube: false, remarks }),
      },
    ]
  })
  const { revision } = ground
  const outsidePart = outsideAnswer
    ? costedPiece(question, outsideAnswer, {
        startCut: revision.startCut.kind,
        endCut: revision.endCut.kind,
        holeCount: 0,
        weldedEndCount: 0,
        dyePenetrant: revision.couldHurt,
      })
    : null
  const weighed = weigh({ home, outside, cannot, outsidePart, rates: ground.rates, today, ...asked })
  return {
    weighed,
    marks: marksOf(ground, { home, outside, rows: weighed.rows }, quoted, versions),
    currency: shop.currency,
  }
}

/** Decisions of a revision, the newest first; their comparisons are kept as `decide` wrote them. */
export async function readDecisions(revisionId: number) {
  const rows = await db.decision.findMany({
    where: { revisionId },
    orderBy: { id: 'desc' },
    take: 50,
    select: {
      id: true,
      quantity: true,
      way: true,
      askId: true,
      whyText: true,
      comparison: true,
      inputsHash: true,
      decidedAt: true,
      decidedBy: { select: { name: true } },
    },
  })
  return rows.map(({ comparison, ...row }) => {
    const weighed = comparison as unknown as Weighed
    const chosen = weighed.rows.find(({ key }) => key === (row.askId === null ? row.way : `ask ${row.askId}`))
    return {
      ...row,
      weighed,
      chosenName: chosen?.name ?? wayNames[row.way as keyof typeof wayNames] ?? row.way,
    }
  })
}

export type DecisionMade = Awaited<ReturnType<typeof readDecisions>>[number]
