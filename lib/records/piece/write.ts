import 'server-only'
import { randomBytes } from 'node:crypto'
import { formatLength } from '@/lib/core/format'
import { cutLeft } from '@/lib/core/stock/cut-left'
import { tubeRefusal } from '@/lib/records/piece/rules'
import type { CutPieces, StockChoice, UndoCut } from '@/lib/records/piece/schema'
import { wholeRates } from '@/lib/records/rates/rules'
import { db, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

const next = { version: { increment: 1 } } as const

/** 144 random bits: cannot be guessed, short enough for a coarse printed code. */
export function newScanCode(): string {
  return randomBytes(18).toString('base64url')
}

/** Reserves tubes for a job; one that is used up or another job's is refused, and then none is taken. */
export async function reserveStock(input: StockChoice, actor: Actor): Promise<{ count: number }> {
  return db.$transaction((tx) => takeStock(tx, input, actor))
}

/** The same inside a larger intention, such as scrapping a piece whose replacement needs a tube. */
export async function takeStock(tx: Tx, input: StockChoice, actor: Actor): Promise<{ count: number }> {
  const job = await requireOpenJob(tx, input.jobId)
  const bars = await tx.stockPiece.findMany({
    where: { id: { in: input.stockPieceIds } },
    select: {
      id: true,
      lot: { select: { materialId: true, shape: true, widthMm: true, heightMm: true, wallMm: true } },
    },
  })
  for (const bar of bars) {
    const why = tubeRefusal(bar.lot, job.revision)
    if (why) throw new Refused('bad-input', `Bar ${bar.id} ${why}`, 'stockPieceId')
  }
  const { count } = await tx.stockPiece.updateMany({
    where: {
      id: { in: input.stockPieceIds },
      usedAt: null,
      OR: [{ reservedForJobId: null }, { reservedForJobId: input.jobId }],
    },
    data: { reservedForJobId: input.jobId, ...next },
  })
  if (count !== new Set(input.stockPieceIds).size) {
    throw new Refused(
      'still-in-use',
      'One of these tubes is used up or reserved for another job by now.',
      'stockPieceId',
    )
  }
  await recordChange(tx, {
    by: actor,
    action: 'reserved stock for',
    entity: 'Job',
    entityId: input.jobId,
    after: { stockPieceIds: input.stockPieceIds },
  })
  return { count }
}

/** Gives a reserved tube back to the rack, while no piece is cut from it. */
export async function freeStock(input: StockChoice, actor: Actor): Promise<{ count: number }> {
  return db.$transaction(async (tx) => {
    const { count } = await tx.stockPiece.updateMany({
      where: {
        id: { in: input.stockPieceIds },
        reservedForJobId: input.jobId,
        usedAt: null,
        pieces: { none: {} },
      },
      data: { reservedForJobId: null, ...next },
    })
    if (count !== new Set(input.stockPieceIds).size) {
      throw new Refused('still-in-use', 'This tube is cut up already, or no longer reserved for this job.')
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

/**
 * Saws pieces off a reserved tube: ties them to its lot and heat number, takes the tube off the rack and puts back
 * what is left of it, where that is worth keeping.
 */
export async function cutPieces(
  input: CutPieces,
  actor: Actor,
): Promise<{ count: number; offcutId: number | null; leftMm: number }> {
  return db.$transaction(async (tx) => {
    await requireOpenJob(tx, input.jobId)
    const bar = await tx.stockPiece.findFirst({
      where: { id: input.stockPieceId, reservedForJobId: input.jobId, usedAt: null },
      select: { lotId: true, lengthMm: true, version: true },
    })
    if (!bar) {
      throw new Refused(
        'wrong-state',
        'Reserve this tube for the job first, or it is cut up by now.',
        'stockPieceId',
      )
    }
    const leftMm = await leftOf(tx, bar.lengthMm, input)
    const used = await tx.stockPiece.updateMany({
      where: { id: input.stockPieceId, version: bar.version, usedAt: null },
      data: { usedAt: new Date(), ...next },
    })
    if (used.count !== 1) {
      throw new Refused(
        'changed-meanwhile',
        'Somebody else has just cut or moved this tube. Look again.',
        'stockPieceId',
      )
    }
    const { count } = await tx.piece.updateMany({
      where: { id: { in: input.pieceIds }, jobId: input.jobId, status: 'open', stockPieceId: null },
      data: { stockPieceId: input.stockPieceId, ...next },
    })
    if (count !== new Set(input.pieceIds).size) {
      throw new Refused('wrong-state', 'One of these pieces is cut already, or no longer open.', 'pieceIds')
    }
    const offcut =
      leftMm > 0
        ? await tx.stockPiece.create({
            data: {
              lotId: bar.lotId,
              lengthMm: leftMm,
              isOffcut: true,
              place: input.place,
              cutFromId: input.stockPieceId,
            },
            select: { id: true },
          })
        : null
    const offcutId = offcut?.id ?? null
    await recordChange(tx, {
      by: actor,
      action: 'cut',
      entity: 'StockPiece',
      entityId: input.stockPieceId,
      detailText: `for ${count} ${count === 1 ? 'piece' : 'pieces'} of a job`,
      before: { lengthMm: bar.lengthMm },
      after: {
        jobId: input.jobId,
        pieceIds: input.pieceIds,
        cutLengthMm: input.cutLengthMm,
        leftMm,
        offcutId,
      },
    })
    return { count, offcutId, leftMm }
  })
}

/** What is left of the bar: as measured, or as reckoned and kept only from the length on that the shop keeps. */
async function leftOf(tx: Tx, barMm: number, input: CutPieces): Promise<number> {
  const { kerfMm, lengthUnit } = await tx.shop.findUniqueOrThrow({
    where: { id: 1 },
    select: { kerfMm: true, lengthUnit: true },
  })
  const show = (mm: number) => formatLength(mm, lengthUnit)
  const pieceCount = new Set(input.pieceIds).size
  const cut = cutLeft({ barMm, lengthMm: input.cutLengthMm, pieceCount, kerfMm })
  if (!cut.fits) {
    throw new Refused(
      'not-enough',
      `The tube of ${show(barMm)} is ${show(cut.lackMm)} too short for ${pieceCount} of ${show(input.cutLengthMm)} with a kerf of ${show(kerfMm)} each.`,
      'pieceIds',
    )
  }
  if (input.leftMm !== null) {
    const mostMm = barMm - pieceCount * input.cutLengthMm
    if (input.leftMm > mostMm) {
      throw new Refused('bad-input', `Allowed: up to ${show(mostMm)}; met: ${show(input.leftMm)}`, 'leftMm')
    }
    return input.leftMm
  }
  const sheet = await tx.rateSheet.findFirst({ select: { rates: true }, orderBy: { id: 'desc' } })
  return cut.leftMm >= wholeRates(sheet?.rates).keepOffcutFromMm ? cut.leftMm : 0
}

/** Takes back a cut that was noted by mistake, before a bend is logged on its pieces or its offcut is used. */
export async function undoCut(input: UndoCut, actor: Actor): Promise<{ count: number }> {
  return db.$transaction(async (tx) => {
    await requireOpenJob(tx, input.jobId)
    const bar = await tx.stockPiece.findFirst({
      where: { id: input.stockPieceId, reservedForJobId: input.jobId, usedAt: { not: null } },
      select: {
        version: true,
        pieces: { select: { id: true, status: true, bendRecords: { select: { id: true }, take: 1 } } },
        cuts: { select: { id: true } },
      },
    })
    if (!bar || bar.pieces.length === 0)
      throw new Refused('not-found', 'No piece of this job is cut from it.')
    if (bar.pieces.some(({ status, bendRecords }) => status !== 'open' || bendRecords.length > 0)) {
      throw new Refused('still-in-use', 'A piece cut from it is bent, released or scrapped already.')
    }
    const gone = await tx.stockPiece.deleteMany({
      where: {
        cutFromId: input.stockPieceId,
        usedAt: null,
        reservedForJobId: null,
        cuts: { none: {} },
        pieces: { none: {} },
      },
    })
    if (gone.count !== bar.cuts.length) {
      throw new Refused('still-in-use', 'Its offcut is reserved or cut into already.')
    }
    await tx.piece.updateMany({
      where: { stockPieceId: input.stockPieceId },
      data: { stockPieceId: null, ...next },
    })
    const { count } = await tx.stockPiece.updateMany({
      where: { id: input.stockPieceId, version: bar.version },
      data: { usedAt: null, ...next },
    })
    if (count !== 1) throw new Refused('changed-meanwhile', 'Somebody else has just changed this tube.')
    await recordChange(tx, {
      by: actor,
      action: 'took back a cut of',
      entity: 'StockPiece',
      entityId: input.stockPieceId,
      before: { pieceIds: bar.pieces.map(({ id }) => id), offcutIds: bar.cuts.map(({ id }) => id) },
    })
    return { count: bar.pieces.length }
  })
}

async function requireOpenJob(tx: Tx, id: number) {
  const job = await tx.job.findUnique({
    where: { id },
    select: {
      status: true,
      revision: { select: { materialId: true, shape: true, widthMm: true, heightMm: true, wallMm: true } },
    },
  })
  if (!job) throw new Refused('not-found', 'There is no such job.')
  if (job.status !== 'open') throw new Refused('wrong-state', `The job is ${job.status}.`)
  return job
}
