import 'server-only'
import { randomBytes } from 'node:crypto'
import type { AssignStock, StockChoice } from '@/lib/records/piece/schema'
import { db, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/** 144 random bits: cannot be guessed, short enough for a coarse printed code. */
export function newScanCode(): string {
  return randomBytes(18).toString('base64url')
}

/** Reserves tubes for a job; one that is used up or another job's is refused, and then none is taken. */
export async function reserveStock(input: StockChoice, actor: Actor): Promise<{ count: number }> {
  return db.$transaction(async (tx) => {
    await requireOpenJob(tx, input.jobId)
    const { count } = await tx.stockPiece.updateMany({
      where: {
        id: { in: input.stockPieceIds },
        usedAt: null,
        OR: [{ reservedForJobId: null }, { reservedForJobId: input.jobId }],
      },
      data: { reservedForJobId: input.jobId, version: { increment: 1 } },
    })
    if (count !== new Set(input.stockPieceIds).size) {
      throw new Refused('still-in-use', 'One of these tubes is used up or reserved for another job by now.')
    }
    await recordChange(tx, {
      by: actor,
      action: 'reserved stock for',
      entity: 'Job',
      entityId: input.jobId,
      after: { stockPieceIds: input.stockPieceIds },
    })
    return { count }
  })
}

/** Gives a reserved tube back to the rack, while no piece is cut from it. */
export async function freeStock(input: StockChoice, actor: Actor): Promise<{ count: number }> {
  return db.$transaction(async (tx) => {
    const { count } = await tx.stockPiece.updateMany({
      where: { id: { in: input.stockPieceIds }, reservedForJobId: input.jobId, pieces: { none: {} } },
      data: { reservedForJobId: null, version: { increment: 1 } },
    })
    if (count !== new Set(input.stockPieceIds).size) {
      throw new Refused('still-in-use', 'A piece of this job is cut from this tube.')
    }
    await recordChange(tx, {
      by: actor,
      action: 'gave stock back from',
      entity: 'Job',
      entityId: input.jobId,
      before: { stockPieceIds: input.stockPieceIds },
    })
    return { count }
  })
}

/** Says which tube pieces are cut from: what ties them to a lot and its heat number. */
export async function assignStock(input: AssignStock, actor: Actor): Promise<{ count: number }> {
  return db.$transaction(async (tx) => {
    const stock = await tx.stockPiece.findFirst({
      where: { id: input.stockPieceId, reservedForJobId: input.jobId },
      select: { lengthMm: true },
    })
    if (!stock) throw new Refused('wrong-state', 'Reserve this tube for the job first.', 'stockPieceId')
    const { count } = await tx.piece.updateMany({
      where: { id: { in: input.pieceIds }, jobId: input.jobId, status: 'open' },
      data: { stockPieceId: input.stockPieceId, version: { increment: 1 } },
    })
    if (count !== new Set(input.pieceIds).size) {
      throw new Refused('wrong-state', 'One of these pieces is released or scrapped already.', 'pieceIds')
    }
    await recordChange(tx, {
      by: actor,
      action: 'cut pieces from stock for',
      entity: 'Job',
      entityId: input.jobId,
      after: { stockPieceId: input.stockPieceId, pieceIds: input.pieceIds },
    })
    return { count }
  })
}

async function requireOpenJob(tx: Tx, id: number): Promise<void> {
  const job = await tx.job.findUnique({ where: { id }, select: { status: true } })
  if (!job) throw new Refused('not-found', 'There is no such job.')
  if (job.status !== 'open') throw new Refused('wrong-state', 'The job is closed.')
}
