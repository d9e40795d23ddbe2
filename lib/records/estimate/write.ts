import 'server-only'
import { groundMark, makeEstimates, readEstimateGround } from '@/lib/records/estimate/read'
import { type EstimateInputs, type EstimateResults, pricedQuantity } from '@/lib/records/estimate/rules'
import type { EstimateChange } from '@/lib/records/estimate/schema'
import { db } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

/**
 * Keeps an estimate as the next version of its revision: worked out here once more from the shop's records, and kept with
 * all that it was made from. What was seen on the screen and what is kept are one, or nothing is kept.
 */
export async function saveEstimate(
  { revisionId, mark, ...ask }: EstimateChange,
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
      priced: pricedQuantity(estimate, ask.pricing, ground.rates.priceRounding),
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
