import 'server-only'
import type { PieceName } from '@/lib/records/piece/rules'
import { db } from '@/lib/server/db'

/** How many pieces the bench lists; the scan code and the job open every one. */
export const mostBenchPieces = 200

/** Open pieces of open jobs, the soonest due first, with what was tried so far. */
export async function readBenchPieces() {
  return db.piece.findMany({
    // In one query the bends of each job would be read once a piece, four hundred times over.
    relationLoadStrategy: 'query',
    where: { status: 'open', job: { status: 'open' } },
    orderBy: [{ job: { dueOn: 'asc' } }, { jobId: 'asc' }, { number: 'asc' }],
    take: mostBenchPieces + 1,
    select: {
      number: true,
      scanCode: true,
      job: {
        select: {
          number: true,
          dueOn: true,
          revision: { select: { part: { select: { name: true } }, bends: { select: { id: true } } } },
        },
      },
      bendRecords: {
        select: {
          bendPosition: true,
          tryNumber: true,
          verdict: true,
          faults: { select: { disposition: true } },
        },
      },
    },
  })
}

/** The bench code of the piece that somebody names: of a job alone, its first open one. Null when there is none. */
export async function readPieceNamed(name: PieceName): Promise<string | null> {
  if ('scanCode' in name) {
    const piece = await db.piece.findUnique({
      where: { scanCode: name.scanCode },
      select: { scanCode: true },
    })
    return piece?.scanCode ?? null
  }
  const { jobNumber, pieceNumber } = name
  const piece = await db.piece.findFirst({
    where: {
      job: { number: jobNumber },
      ...(pieceNumber === null ? { status: 'open' } : { number: pieceNumber }),
    },
    orderBy: { number: 'asc' },
    select: { scanCode: true },
  })
  return piece?.scanCode ?? null
}

/** The piece a scan code opens; null for a code that was never printed. */
export async function readPieceByCode(scanCode: string) {
  return db.piece.findUnique({
    where: { scanCode },
    select: {
      id: true,
      number: true,
      scanCode: true,
      status: true,
      replacements: { select: { number: true, scanCode: true }, take: 1 },
      stockPiece: { select: { lot: { select: { number: true, heatNumber: true } } } },
      /** Open faults of no one try: seen at the bench or by the office. */
      faults: {
        where: { bendRecordId: null, disposition: null },
        orderBy: { id: 'asc' },
        select: { id: true, number: true, description: true },
      },
      job: {
        select: {
          id: true,
          number: true,
          quantity: true,
          status: true,
          plan: true,
          pieces: {
            where: { status: 'open' },
            orderBy: { number: 'asc' },
            select: { number: true, scanCode: true },
          },
          revision: {
            select: {
              part: { select: { number: true, name: true } },
              bends: { select: { angleDeg: true }, orderBy: { position: 'asc' } },
            },
          },
        },
      },
      bendRecords: {
        orderBy: [{ bendPosition: 'asc' }, { tryNumber: 'asc' }],
        select: {
          id: true,
          bendPosition: true,
          tryNumber: true,
          verdict: true,
          reasons: true,
          loadedAngleDeg: true,
          radiusMm: true,
          widthOutsideMm: true,
          widthMiddleMm: true,
          widthInsideMm: true,
          heightMm: true,
          wallOutsideMm: true,
          wallInsideMm: true,
          dyePenetrant: true,
          gaugeText: true,
          gaugeUncertaintyDeg: true,
          noteText: true,
          angleAtPressDeg: true,
          angleFinalDeg: true,
          clientKey: true,
          faults: { select: { id: true, number: true, disposition: true } },
          photos: { select: { id: true } },
          look: true,
        },
      },
    },
  })
}

export type BenchPiece = NonNullable<Awaited<ReturnType<typeof readPieceByCode>>>
