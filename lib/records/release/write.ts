import 'server-only'
import { releaseRefusals } from '@/lib/records/piece/rules'
import type { ReleaseInput } from '@/lib/records/release/schema'
import { db } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import { nextNumber } from '@/lib/server/numbering'
import type { Actor } from '@/lib/server/session'

const limits =
  'This record says what was measured and judged, by whom and with which gauge. It does not say that the part may be used: a licensed engineer and local codes decide that.'

/** Releases pieces of which every bend has passed or has a concession, past no open fault; all of them or none. */
export async function releasePieces(
  input: ReleaseInput,
  actor: Actor,
): Promise<{ id: number; number: string }> {
  return db.$transaction(async (tx) => {
    await tx.$queryRaw`select id from "Job" where id = ${input.jobId} for update`
    await tx.$queryRaw`select id from "Piece" where "jobId" = ${input.jobId} order by id for update`
    const job = await tx.job.findUnique({
      where: { id: input.jobId },
      select: {
        status: true,
        revision: { select: { bends: { select: { id: true } } } },
        faults: { where: { pieceId: null }, select: { number: true, disposition: true } },
        pieces: {
          where: { id: { in: input.pieceIds } },
          select: {
            id: true,
            number: true,
            status: true,
            faults: { select: { number: true, disposition: true } },
            stockPiece: { select: { lot: { select: { number: true, heatNumber: true } } } },
            bendRecords: {
              select: {
                bendPosition: true,
                tryNumber: true,
                verdict: true,
                angleFinalDeg: true,
                radiusMm: true,
                gaugeText: true,
                gaugeUncertaintyDeg: true,
                reasons: true,
                setup: true,
                at: true,
                by: { select: { name: true } },
                faults: { select: { number: true, disposition: true } },
              },
              orderBy: [{ bendPosition: 'asc' }, { tryNumber: 'asc' }],
            },
          },
          orderBy: { number: 'asc' },
        },
      },
    })
    if (!job) throw new Refused('not-found', 'There is no such job.')
    if (job.status !== 'open') throw new Refused('wrong-state', 'The job is closed.')
    if (job.pieces.length !== new Set(input.pieceIds).size) {
      throw new Refused('not-found', 'The job has no such piece.', 'pieceIds')
    }
    const bendCount = job.revision.bends.length
    const refusals = job.pieces.flatMap((piece) =>
      releaseRefusals(
        { status: piece.status, tries: piece.bendRecords, faults: [...piece.faults, ...job.faults] },
        bendCount,
      ).map((why) => `Piece ${piece.number} ${why}.`),
    )
    if (refusals.length > 0) throw new Refused('wrong-state', refusals.join(' '), 'pieceIds')
    const number = await nextNumber(tx, 'release')
    const { id } = await tx.release.create({
      data: {
        number,
        jobId: input.jobId,
        byId: actor.userId,
        statementText: input.noteText ? `${limits}\n${input.noteText}` : limits,
        snapshot: asJson({ pieces: job.pieces }),
        pieces: { createMany: { data: job.pieces.map((piece) => ({ pieceId: piece.id })) } },
      },
      select: { id: true },
    })
    await tx.piece.updateMany({
      where: { id: { in: job.pieces.map((piece) => piece.id) } },
      data: { status: 'released', version: { increment: 1 } },
    })
    await recordChange(tx, {
      by: actor,
      action: 'released',
      entity: 'Release',
      entityId: id,
      detailText: `${number}: pieces ${job.pieces.map((piece) => piece.number).join(', ')}`,
    })
    return { id, number }
  })
}
