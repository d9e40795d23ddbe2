import 'server-only'
import type { Chased, Declined, Quoted, SendAsks, Silent } from '@/lib/records/ask/schema'
import { db, type Prisma } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/** Records one request to each bender chosen, in one go. */
export async function sendAsks(input: SendAsks, actor: Actor): Promise<{ ids: number[] }> {
  const { sourceIds, ...shared } = input
  return db.$transaction(async (tx) => {
    const known = await tx.source.count({ where: { id: { in: sourceIds }, archivedAt: null } })
    if (known !== new Set(sourceIds).size)
      throw new Refused('bad-input', 'One of these benders is not in the list any more.', 'sourceIds')
    const revision = await tx.partRevision.findUnique({
      where: { id: shared.revisionId },
      select: { id: true },
    })
    if (!revision) throw new Refused('not-found', 'There is no such revision of a part.')
    const asks = await tx.ask.createManyAndReturn({
      data: [...new Set(sourceIds)].map((sourceId) => ({ ...shared, sourceId })),
      select: { id: true },
    })
    const ids = asks.map(({ id }) => id)
    await recordChange(tx, {
      by: actor,
      action: 'asked outside',
      entity: 'PartRevision',
      entityId: shared.revisionId,
      after: { ...input, askIds: ids },
    })
    return { ids }
  })
}

/** Logs a bender's prices; a later quote replaces them. */
export async function logQuote(input: Quoted, actor: Actor): Promise<{ version: number }> {
  const { id, version, prices, expectedRejectPct, ...answer } = input
  return saveAnswer(
    { id, version },
    {
      ...answer,
      status: 'quoted',
      declineReason: '',
      expectedRejectFraction: expectedRejectPct / 100,
      prices: { deleteMany: {}, create: prices },
    },
    'quoted',
    actor,
  )
}

export async function logDecline(input: Declined, actor: Actor): Promise<{ version: number }> {
  const { id, version, ...answer } = input
  return saveAnswer({ id, version }, { ...answer, status: 'declined' }, 'declined', actor)
}

export async function chaseAsk(input: Chased, actor: Actor): Promise<{ version: number }> {
  const { id, version, chaseOn } = input
  return saveAnswer({ id, version }, { chaseOn, chasedCount: { increment: 1 } }, 'chased', actor)
}

export async function giveUpAsk(input: Silent, actor: Actor): Promise<{ version: number }> {
  return saveAnswer(input, { status: 'silent' }, 'given up as silent', actor)
}

async function saveAnswer(
  which: { id: number; version: number },
  data: Prisma.AskUpdateInput,
  action: string,
  actor: Actor,
): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const { count } = await tx.ask.updateMany({ where: which, data: { version: { increment: 1 } } })
    if (count !== 1) throw changedMeanwhile('request')
    await tx.ask.update({ where: { id: which.id }, data })
    await recordChange(tx, { by: actor, action, entity: 'Ask', entityId: which.id, after: data })
    return { version: which.version + 1 }
  })
}
