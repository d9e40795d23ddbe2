import 'server-only'
import { literalSearch } from '@/lib/records/fields'
import { db, type Prisma } from '@/lib/server/db'

const releaseColumns = {
  release: { select: { id: true, number: true, at: true, by: { select: { name: true } } } },
} as const

const lotColumns = {
  id: true,
  number: true,
  materialId: true,
  shape: true,
  widthMm: true,
  heightMm: true,
  wallMm: true,
  heatNumber: true,
  supplierText: true,
  receivedOn: true,
  certificateFile: { select: { id: true, name: true, byteCount: true } },
} as const satisfies Prisma.StockLotSelect

const jobColumns = {
  id: true,
  number: true,
  customer: { select: { id: true, name: true } },
  revision: { select: { letter: true, part: { select: { id: true, number: true, name: true } } } },
} as const satisfies Prisma.JobSelect

const mostPieces = 2000

/** Every lot of a heat number and every piece that was made of it, with where it went. */
export async function readHeat(heatNumber: string) {
  const [lots, pieces] = await Promise.all([
    db.stockLot.findMany({
      where: { heatNumber },
      orderBy: { id: 'asc' },
      select: {
        ...lotColumns,
        pieces: { where: { usedAt: null }, select: { lengthMm: true, isOffcut: true } },
      },
    }),
    db.piece.findMany({
      where: { stockPiece: { lot: { heatNumber } } },
      orderBy: [{ jobId: 'asc' }, { number: 'asc' }],
      take: mostPieces,
      select: {
        id: true,
        number: true,
        status: true,
        stockPiece: { select: { id: true, lot: { select: { id: true, number: true } } } },
        job: { select: jobColumns },
        releases: { select: releaseColumns },
      },
    }),
  ])
  return { lots, pieces }
}

/** Everything behind one piece: its tube, what it was bent with and by whom, what was decided, where it went. */
export async function readPieceTrace(id: number) {
  return db.piece.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      status: true,
      replaces: { select: { id: true, number: true } },
      replacements: { select: { id: true, number: true } },
      stockPiece: { select: { id: true, lengthMm: true, isOffcut: true, lot: { select: lotColumns } } },
      job: {
        select: {
          ...jobColumns,
          revision: {
            select: {
              ...jobColumns.revision.select,
              bends: { select: { angleDeg: true }, orderBy: { position: 'asc' } },
            },
          },
          travellerIssue: true,
          fillerEntries: {
            where: { kind: 'poured' },
            orderBy: { id: 'asc' },
            select: {
              at: true,
              filler: { select: { id: true, shopNumber: true, name: true, lotText: true } },
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
          at: true,
          by: { select: { name: true } },
          loadedAngleDeg: true,
          angleAtPressDeg: true,
          angleFinalDeg: true,
          radiusMm: true,
          widthOutsideMm: true,
          widthMiddleMm: true,
          widthInsideMm: true,
          heightMm: true,
          wallOutsideMm: true,
          wallInsideMm: true,
          look: true,
          dyePenetrant: true,
          photos: { select: { id: true }, orderBy: { id: 'asc' } },
          gaugeText: true,
          gaugeUncertaintyDeg: true,
          verdict: true,
          setup: true,
        },
      },
      operationLogs: {
        orderBy: { startedAt: 'asc' },
        select: {
          id: true,
          startedAt: true,
          endedAt: true,
          by: { select: { name: true } },
          operation: { select: { name: true } },
        },
      },
      faults: {
        orderBy: { id: 'asc' },
        select: {
          id: true,
          number: true,
          description: true,
          disposition: true,
          whyText: true,
          decidedBy: { select: { name: true } },
        },
      },
      releases: { select: releaseColumns },
    },
  })
}

export type PieceTrace = NonNullable<Awaited<ReturnType<typeof readPieceTrace>>>

/** The heat numbers on the rack and in finished work, the newest first: where a search begins. */
export async function readHeats(search: string) {
  return db.stockLot.groupBy({
    by: ['heatNumber'],
    where: { heatNumber: search ? { contains: literalSearch(search), mode: 'insensitive' } : { not: '' } },
    _count: { _all: true },
    _max: { receivedOn: true },
    orderBy: { _max: { receivedOn: 'desc' } },
    take: 50,
  })
}
