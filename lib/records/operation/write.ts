import 'server-only'
import { db } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/** How far a device's clock may run ahead of the shop's before its time is not believed. */
const clockSlackMs = 10 * 60_000

/** Starts somebody's clock on an operation. The time is the device's, since the entry may arrive hours later. */
export async function startOperation(
  input: { clientKey: string; operationId: number; pieceId: number | null; at: Date },
  actor: Actor,
): Promise<void> {
  await db.$transaction(async (tx) => {
    const operation = await tx.jobOperation.findUnique({
      where: { id: input.operationId },
      select: { name: true, jobId: true, job: { select: { status: true, number: true } } },
    })
    if (!operation) throw new Refused('not-found', 'There is no such operation.')
    await tx.$queryRaw`select id from "JobOperation" where id = ${input.operationId} for update`
    const known = await tx.operationLog.findUnique({
      where: { clientKey: input.clientKey },
      select: { id: true },
    })
    if (known) return
    if (operation.job.status !== 'open')
      throw new Refused('wrong-state', `Job ${operation.job.number} is closed.`)
    if (input.pieceId !== null) {
      const piece = await tx.piece.count({ where: { id: input.pieceId, jobId: operation.jobId } })
      if (piece !== 1) throw new Refused('not-found', 'The job has no such piece.')
    }
    const running = await tx.operationLog.findFirst({
      where: { operationId: input.operationId, byId: actor.userId, endedAt: null },
      select: { id: true },
    })
    if (running) throw new Refused('already-done', `Your clock on “${operation.name}” is running already.`)
    await tx.operationLog.create({
      data: {
        clientKey: input.clientKey,
        operationId: input.operationId,
        pieceId: input.pieceId,
        byId: actor.userId,
        startedAt: notAhead(input.at),
      },
    })
  })
}

export async function stopOperation(
  input: { clientKey: string; startKey: string; at: Date; reasonText?: string },
  actor: Actor,
): Promise<void> {
  await db.$transaction(async (tx) => {
    const entry = await tx.operationLog.findUnique({
      where: { clientKey: input.startKey },
      select: { id: true, startedAt: true, endedAt: true, byId: true, operationId: true },
    })
    if (!entry)
      throw new Refused('not-found', 'The start of this clock has not arrived yet. It is sent again.')
    if (entry.endedAt) return
    const endedAt = notAhead(input.at)
    if (endedAt < entry.startedAt) throw new Refused('bad-input', 'A clock can’t stop before it was started.')
    const { count } = await tx.operationLog.updateMany({
      where: { id: entry.id, endedAt: null },
      data: { endedAt },
    })
    if (count === 1 && entry.byId !== actor.userId) {
      await recordChange(tx, {
        by: actor,
        action: 'stopped the clock of somebody else on',
        entity: 'JobOperation',
        entityId: entry.operationId,
      })
    }
    if (count === 1 && input.reasonText) {
      await recordChange(tx, {
        by: actor,
        action: 'stopped a forgotten clock on',
        entity: 'JobOperation',
        entityId: entry.operationId,
        detailText: input.reasonText,
        after: { endedAt: endedAt.toISOString() },
      })
    }
  })
}

/** Marks an operation done, or not done after all. */
export async function markOperation(
  input: { id: number; done: boolean },
  actor: Actor,
): Promise<{ done: boolean }> {
  return db.$transaction(async (tx) => {
    const operation = await tx.jobOperation.findUnique({
      where: { id: input.id },
      select: { name: true, doneAt: true, job: { select: { status: true } } },
    })
    if (!operation) throw new Refused('not-found', 'There is no such operation.')
    if (operation.job.status !== 'open') throw new Refused('wrong-state', 'The job is closed.')
    if ((operation.doneAt !== null) === input.done) return { done: input.done }
    await tx.jobOperation.update({
      where: { id: input.id },
      data: { doneAt: input.done ? new Date() : null },
    })
    await recordChange(tx, {
      by: actor,
      action: input.done ? 'finished' : 'took up again',
      entity: 'JobOperation',
      entityId: input.id,
      detailText: operation.name,
    })
    return { done: input.done }
  })
}

function notAhead(at: Date): Date {
  const latest = Date.now() + clockSlackMs
  if (at.getTime() > latest) {
    throw new Refused(
      'bad-input',
      'This device’s clock is ahead of the shop’s by more than ten minutes. Set it right.',
    )
  }
  return at
}
