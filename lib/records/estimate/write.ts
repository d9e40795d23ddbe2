import 'server-only'
import { groundMark, makeEstimates, readEstimateGround } from '@/lib/records/estimate/read'
import {
  type EstimateInputs,
  type EstimateResults,
  pricedQuantity,
  ratesOf,
} from '@/lib/records/estimate/rules'
import type { EstimateChange, QuoteEstimate } from '@/lib/records/estimate/schema'
import { startQuote } from '@/lib/records/quote/write'
import { estimatedLine } from '@/lib/records/quote-line/rules'
import { db, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

/**
 * Keeps an estimate as the next version of its revision: worked out here once more from the shop's records, and kept with
 * all that it was made from. What was seen on the screen and what is kept are one, or nothing is kept.
 */
export async function saveEstimate(
  { revisionId, mark, ...typed }: EstimateChange,
  actor: Actor,
): Promise<{ id: number; number: number }> {
  const read = await readEstimateGround(revisionId)
  if (!read) throw new Refused('not-found', 'There is no such revision of a part.')
  const { ground } = read
  if (groundMark(ground) !== mark) {
    throw new Refused(
      'changed-meanwhile',
      'The part, its set-up, the rates, the pot or the rack changed while you were working. What you typed is still here: look at the new numbers, then save again.',
    )
  }
  const ownYield = typed.yieldFraction !== ground.rates.firstPassYieldFraction
  const ask = { ...typed, yieldReason: ownYield ? typed.yieldReason.trim() : '' }
  if (ownYield && ask.yieldReason.length < 3) {
    throw new Refused('bad-input', 'Say why: it is not the shop’s figure', 'yieldReason')
  }
  const made = await makeEstimates(ground, ask)
  if (!made) throw new Refused('bad-input', 'This way has no bend spec to cost: choose another.', 'way')
  if (made.quantities.some(({ tube }) => tube.material === null)) {
    throw new Refused('not-enough', 'There is not enough tube: name a bar that can be bought.', 'buyable')
  }
  const inputs: EstimateInputs = {
    ask,
    ground,
    basis: made.basis,
    quantities: made.quantities.map(({ input }) => input),
  }
  const results: EstimateResults = {
    quantities: made.quantities.map(({ estimate, tube }) => ({
      pieceCount: estimate.pieceCount,
      estimate,
      tube,
      priced: pricedQuantity(estimate, ask.pricing, ratesOf(ground.rates, ask).priceRounding),
    })),
  }
  return db.$transaction(async (tx) => {
    // Numbers run without gaps within a revision: two that are saved at once take turns.
    await tx.$executeRaw`select pg_advisory_xact_lock(hashtext('number estimates'), ${revisionId})`
    const last = await tx.estimate.aggregate({ where: { revisionId }, _max: { number: true } })
    const number = (last._max.number ?? 0) + 1
    const { id } = await tx.estimate.create({
      data: {
        revisionId,
        number,
        way: ask.way,
        quantities: ask.quantities,
        rateSheetId: ground.rateSheetId,
        overrides: asJson(ask.overrides),
        inputs: asJson(inputs),
        results: asJson(results),
        createdById: actor.userId,
      },
      select: { id: true },
    })
    await recordChange(tx, {
      by: actor,
      action: `made version ${number} of`,
      entity: 'Estimate',
      entityId: id,
      after: { revisionId, number, ...ask, costs: results.quantities.map(({ priced }) => priced) },
    })
    return { id, number }
  })
}

/**
 * Takes a version into a quote: each of its quantities becomes a break with its cost behind it and its price by margin or
 * markup. A draft that has a line for this revision gets that line priced anew.
 */
export async function quoteEstimate(
  { estimateId, quoteId, pricing }: QuoteEstimate,
  actor: Actor,
): Promise<{ quoteId: number }> {
  return db.$transaction(async (tx) => {
    const estimate = await tx.estimate.findUnique({
      where: { id: estimateId },
      select: {
        number: true,
        revisionId: true,
        inputs: true,
        results: true,
        revision: {
          select: {
            letter: true,
            part: { select: { customerId: true, number: true, name: true } },
          },
        },
      },
    })
    if (!estimate) throw new Refused('not-found', 'There is no such estimate.')
    const { revisionId, revision } = estimate
    const { customerId } = revision.part
    const id = await draftFor(tx, { quoteId, customerId, revisionId }, actor)
    const lineId = await lineFor(tx, id, { revisionId, ...revision })
    const { steps, leadTimeDays } = estimatedLine(estimate, pricing)
    await tx.quoteBreak.deleteMany({ where: { lineId } })
    await tx.quoteBreak.createMany({ data: steps.map((step) => ({ ...step, lineId })) })
    await tx.quoteLine.update({ where: { id: lineId }, data: { estimateId, leadTimeDays } })
    await recordChange(tx, {
      by: actor,
      action: `took version ${estimate.number} of an estimate into`,
      entity: 'Quote',
      entityId: id,
      after: { estimateId, pricing, steps },
    })
    return { quoteId: id }
  })
}

/** The draft named, claimed from who else may be changing it; or a new one. */
async function draftFor(
  tx: Tx,
  { quoteId, customerId, revisionId }: { quoteId: number | null; customerId: number; revisionId: number },
  actor: Actor,
): Promise<number> {
  if (quoteId === null) return (await startQuote(tx, { customerId, revisionIds: [revisionId] }, actor)).id
  const { count } = await tx.quote.updateMany({
    where: { id: quoteId, customerId, status: 'draft' },
    data: { version: { increment: 1 } },
  })
  if (count !== 1)
    throw new Refused('wrong-state', 'This quote is no draft of the part’s customer any more.', 'quoteId')
  return quoteId
}

async function lineFor(
  tx: Tx,
  quoteId: number,
  of: { revisionId: number; letter: string; part: { number: string; name: string } },
): Promise<number> {
  const lines = await tx.quoteLine.findMany({
    where: { quoteId },
    orderBy: { position: 'asc' },
    select: { id: true, position: true, revisionId: true },
  })
  const own = lines.find((line) => line.revisionId === of.revisionId)
  if (own) return own.id
  if (lines.length >= 50) throw new Refused('wrong-state', 'A quote has at most 50 lines.')
  const { id } = await tx.quoteLine.create({
    data: {
      quoteId,
      revisionId: of.revisionId,
      position: (lines.at(-1)?.position ?? 0) + 1,
      description: `${of.part.name}, part ${of.part.number} revision ${of.letter}`,
      leadTimeDays: 0,
    },
    select: { id: true },
  })
  return id
}
