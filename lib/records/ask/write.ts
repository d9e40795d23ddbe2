import 'server-only'
import type { AskNote, Chased, Declined, Ordered, Quoted, SendAsks, Silent } from '@/lib/records/ask/schema'
import { db, type Prisma } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import type { AskStatus } from '@/lib/server/generated/prisma/enums'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/**
 * Records one request to each bender chosen, in one go. Pressed twice, or by two people at once, it stays one: a bender
 * who was asked the same of the same revision on the same day is not asked again.
 */
export async function sendAsks(input: SendAsks, actor: Actor): Promise<{ ids: number[] }> {
  const { sourceIds, ...shared } = input
  return db.$transaction(async (tx) => {
    const known = await tx.source.count({ where: { id: { in: sourceIds }, archivedAt: null } })
    if (known !== new Set(sourceIds).size)
      throw new Refused('bad-input', 'One of these benders is not in the list any more.', 'sourceIds')
    const locked = await tx.$queryRaw<
      unknown[]
    >`select id from "PartRevision" where id = ${shared.revisionId} for update`
    if (locked.length === 0) throw new Refused('not-found', 'There is no such revision of a part.')
    const asked = await tx.ask.findMany({
      where: {
        revisionId: shared.revisionId,
        sourceId: { in: sourceIds },
        sentOn: shared.sentOn,
        quantities: { equals: shared.quantities },
      },
      select: { id: true, sourceId: true },
    })
    const already = new Set(asked.map(({ sourceId }) => sourceId))
    const asks = await tx.ask.createManyAndReturn({
      data: [...new Set(sourceIds)]
        .filter((sourceId) => !already.has(sourceId))
        .map((sourceId) => ({ ...shared, sourceId })),
      select: { id: true },
    })
    const ids = [...asked, ...asks].map(({ id }) => id)
    if (asks.length === 0) return { ids }
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
  return saveAnswer(
    { id, version },
    { ...answer, status: 'declined', prices: { deleteMany: {} } },
    'declined',
    actor,
  )
}

/** Chased once more; one given up as silent waits again. */
export async function chaseAsk(input: Chased, actor: Actor): Promise<{ version: number }> {
  const { id, version, chaseOn } = input
  const chased = { status: 'sent', chaseOn, chasedCount: { increment: 1 } } as const
  return saveAnswer({ id, version }, chased, 'chased', actor, ['sent', 'silent'])
}

export async function giveUpAsk(input: Silent, actor: Actor): Promise<{ version: number }> {
  return saveAnswer(input, { status: 'silent' }, 'given up as silent', actor, ['sent'])
}

export async function noteAsk(input: AskNote, actor: Actor): Promise<{ version: number }> {
  const { id, version, notesText } = input
  return saveAnswer({ id, version }, { notesText }, 'noted', actor)
}

/** Keeps how an order went: late deliveries and pieces turned away stand in the bender's history. */
export async function logOrder(input: Ordered, actor: Actor): Promise<{ version: number }> {
  const { id, version, ...order } = input
  return saveAnswer({ id, version }, order, 'order kept', actor, ['quoted'])
}

async function saveAnswer(
  which: { id: number; version: number },
  data: Omit<Prisma.AskUpdateInput, 'repliedOn'> & { repliedOn?: Date },
  action: string,
  actor: Actor,
  from?: readonly AskStatus[],
): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const { count } = await tx.ask.updateMany({ where: which, data: { version: { increment: 1 } } })
    if (count !== 1) throw changedMeanwhile('request')
    const before = await tx.ask.findUniqueOrThrow({
      where: { id: which.id },
      include: { prices: { orderBy: { quantity: 'asc' } } },
    })
    if (from && !from.includes(before.status))
      throw new Refused('wrong-state', `This request is ${askWords[before.status]}: that no longer fits.`)
    if (data.repliedOn && data.repliedOn < before.sentOn)
      throw new Refused('bad-input', 'The answer lies before the day it was sent', 'repliedOn')
    await tx.ask.update({ where: { id: which.id }, data })
    await recordChange(tx, { by: actor, action, entity: 'Ask', entityId: which.id, before, after: data })
    return { version: which.version + 1 }
  })
}

const askWords = { sent: 'unanswered', quoted: 'answered', declined: 'declined', silent: 'given up' } as const
