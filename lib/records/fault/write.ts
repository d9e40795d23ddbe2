import 'server-only'
import { dispositionNotes } from '@/lib/core/inspection/disposition'
import type { FaultDecision, FaultInput } from '@/lib/records/fault/schema'
import { newScanCode, takeStock } from '@/lib/records/piece/write'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { nextNumber } from '@/lib/server/numbering'
import { roleMay } from '@/lib/server/permissions'
import type { Actor } from '@/lib/server/session'

type NewFault = { jobId: number; pieceId: number | null; bendRecordId: number | null; description: string }

/** Opens a fault in the caller's transaction: with the try that failed, or by hand. */
export async function openFault(
  tx: Tx,
  fault: NewFault,
  actor: Actor,
): Promise<{ id: number; number: string }> {
  const number = await nextNumber(tx, 'fault')
  const { id } = await tx.nonconformance.create({
    data: { ...fault, number, openedById: actor.userId },
    select: { id: true },
  })
  await recordChange(tx, {
    by: actor,
    action: 'opened',
    entity: 'Nonconformance',
    entityId: id,
    detailText: `${number}: ${fault.description}`,
    after: fault,
  })
  return { id, number }
}

export async function openFaultByHand(input: FaultInput, actor: Actor): Promise<{ number: string }> {
  return db.$transaction(async (tx) => {
    const job = await tx.job.findUnique({ where: { id: input.jobId }, select: { status: true } })
    if (!job) throw new Refused('not-found', 'There is no such job.')
    if (job.status !== 'open') throw new Refused('wrong-state', 'The job is closed.')
    if (input.pieceId === null && input.bendPosition !== null) {
      throw new Refused('bad-input', 'Say of which piece the bend is', 'pieceId')
    }
    if (input.pieceId !== null) {
      const piece = await tx.piece.findFirst({
        where: { id: input.pieceId, jobId: input.jobId },
        select: { status: true },
      })
      if (!piece) throw new Refused('not-found', 'The job has no such piece.', 'pieceId')
      if (piece.status !== 'open') {
        throw new Refused('wrong-state', `The piece is ${piece.status} already.`, 'pieceId')
      }
    }
    const record =
      input.pieceId === null || input.bendPosition === null
        ? null
        : await tx.bendRecord.findFirst({
            where: { pieceId: input.pieceId, bendPosition: input.bendPosition },
            select: { id: true },
            orderBy: { tryNumber: 'desc' },
          })
    if (input.bendPosition !== null && !record) {
      throw new Refused('wrong-state', 'This bend has no try yet.', 'bendPosition')
    }
    const { number } = await openFault(
      tx,
      {
        jobId: input.jobId,
        pieceId: input.pieceId,
        bendRecordId: record?.id ?? null,
        description: input.description,
      },
      actor,
    )
    return { number }
  })
}

/** Decides about an open fault. Scrap sets the piece apart and starts the one that replaces it. */
export async function decideFault(
  input: FaultDecision,
  actor: Actor,
): Promise<{ version: number; replacement: number | null }> {
  if (!roleMay(actor.role, 'fault.decide')) {
    throw new Refused(
      'not-allowed',
      `Your role (${actor.role}) may not decide about a fault. Ask the office.`,
    )
  }
  return db.$transaction(async (tx) => {
    const fault = await tx.nonconformance.findUnique({
      where: { id: input.id },
      select: { number: true, jobId: true, pieceId: true, disposition: true },
    })
    if (!fault) throw new Refused('not-found', 'There is no such fault.')
    if (fault.disposition) throw new Refused('already-done', `${fault.number} was decided already.`)
    const { count } = await tx.nonconformance.updateMany({
      where: { id: input.id, version: input.version, disposition: null },
      data: {
        disposition: input.disposition,
        whyText: input.whyText,
        decidedAt: new Date(),
        decidedById: actor.userId,
        version: { increment: 1 },
      },
    })
    if (count !== 1) throw changedMeanwhile('fault')
    const replacement =
      input.disposition === 'scrap' ? await scrapPiece(tx, fault, input.stockPieceId, actor) : null
    await recordChange(tx, {
      by: actor,
      action: 'decided',
      entity: 'Nonconformance',
      entityId: input.id,
      detailText: `${fault.number}: ${dispositionNotes[input.disposition].name}. ${input.whyText}`,
      before: { disposition: null },
      after: { disposition: input.disposition, whyText: input.whyText },
    })
    return { version: input.version + 1, replacement }
  })
}

async function scrapPiece(
  tx: Tx,
  fault: { number: string; jobId: number; pieceId: number | null },
  stockPieceId: number | null,
  actor: Actor,
): Promise<number | null> {
  if (fault.pieceId === null) {
    throw new Refused(
      'wrong-state',
      'This fault is of the whole job, not of one piece to scrap.',
      'disposition',
    )
  }
  await tx.$queryRaw`select id from "Job" where id = ${fault.jobId} for update`
  const { count } = await tx.piece.updateMany({
    where: { id: fault.pieceId, status: 'open' },
    data: { status: 'scrapped', version: { increment: 1 } },
  })
  if (count !== 1) {
    const piece = await tx.piece.findUnique({ where: { id: fault.pieceId }, select: { status: true } })
    // A second fault of a piece that another one scrapped: there is one replacement for one piece.
    if (piece?.status === 'scrapped') return null
    throw new Refused('wrong-state', 'The piece is released already.', 'disposition')
  }
  const job = await tx.job.findUniqueOrThrow({ where: { id: fault.jobId }, select: { status: true } })
  if (job.status !== 'open') return null
  if (stockPieceId !== null) {
    await takeStock(tx, { jobId: fault.jobId, stockPieceIds: [stockPieceId] }, actor)
  }
  const last = await tx.piece.aggregate({ where: { jobId: fault.jobId }, _max: { number: true } })
  const number = (last._max.number ?? 0) + 1
  const { id } = await tx.piece.create({
    data: { jobId: fault.jobId, number, scanCode: newScanCode(), replacesId: fault.pieceId },
    select: { id: true },
  })
  await recordChange(tx, {
    by: actor,
    action: 'started a replacement',
    entity: 'Piece',
    entityId: id,
    detailText: `Piece ${number}, after ${fault.number}`,
    after: { replacesId: fault.pieceId, stockPieceId },
  })
  return number
}
