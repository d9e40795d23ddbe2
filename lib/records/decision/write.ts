import 'server-only'
import { readWeighing } from '@/lib/records/decision/read'
import { isSameComparison, markText } from '@/lib/records/decision/rules'
import type { Decide } from '@/lib/records/decision/schema'
import { db } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

/**
 * Keeps what was chosen and why, with the whole comparison worked out once more from the records: what was seen and what
 * is kept are one, or nothing is kept. Earlier decisions stay.
 */
export async function decide(input: Decide, actor: Actor): Promise<{ id: number }> {
  const { revisionId, pieceCount, dueOn, chosen, whyText, mark } = input
  const read = await readWeighing(revisionId, { pieceCount, dueOn })
  if (!read)
    throw new Refused('not-found', 'There is no such revision of a part, or no press to weigh it for.')
  if (!isSameComparison(mark, read.marks)) {
    throw new Refused(
      'changed-meanwhile',
      'Something this comparison is made from changed while you were weighing. What you typed is still here: load the page again and look at the new numbers first.',
    )
  }
  const key = chosen.askId === null ? chosen.way : `ask ${chosen.askId}`
  if (!read.weighed.rows.some((row) => row.key === key))
    throw new Refused('bad-input', 'That is not among what can be chosen now.', 'chosen')
  return db.$transaction(async (tx) => {
    const { id } = await tx.decision.create({
      data: {
        revisionId,
        quantity: pieceCount,
        way: chosen.way,
        askId: chosen.askId,
        whyText,
        comparison: asJson(read.weighed),
        inputsHash: markText(read.marks),
        decidedById: actor.userId,
      },
      select: { id: true },
    })
    await recordChange(tx, {
      by: actor,
      action: 'decided',
      entity: 'Decision',
      entityId: id,
      detailText: `${key}, ${pieceCount} pieces: ${whyText}`.slice(0, 400),
      after: { revisionId, pieceCount, chosen: key, whyText },
    })
    return { id }
  })
}
