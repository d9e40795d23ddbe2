import 'server-only'
import { sameSizeMm } from '@/lib/records/stock/rules'
import { db, type Prisma } from '@/lib/server/db'

/** Jobs a page at a time, due first, open before closed. */
export async function readJobs(query: { q: string; page: number; pageSize: number }) {
  const text = { contains: query.q, mode: 'insensitive' as const }
  const where: Prisma.JobWhereInput = query.q
    ? {
        OR: [
          { number: text },
          { customer: { name: text } },
          { revision: { part: { OR: [{ name: text }, { number: text }] } } },
        ],
      }
    : {}
  const [count, jobs] = await Promise.all([
    db.job.count({ where }),
    db.job.findMany({
      where,
      select: {
        id: true,
        number: true,
        status: true,
        dueOn: true,
        quantity: true,
        customer: { select: { name: true } },
        revision: { select: { letter: true, part: { select: { number: true, name: true } } } },
        pieces: { select: { status: true } },
      },
      orderBy: [{ status: 'asc' }, { dueOn: 'asc' }, { id: 'asc' }],
      skip: (query.page - 1) * query.pageSize,
      take: query.pageSize,
    }),
  ])
  return { count, jobs }
}

/** One job with everything that was planned, tried, cut, poured, decided and released on it; null when there is none. */
export async function readJob(id: number) {
  return db.job.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      status: true,
      dueOn: true,
      createdAt: true,
      closedAt: true,
      endReason: true,
      quantity: true,
      way: true,
      plan: true,
      priceCents: true,
      version: true,
      travellerIssue: true,
      revisionId: true,
      customer: { select: { id: true, name: true } },
      quoteLine: {
        select: { position: true, quote: { select: { id: true, number: true, currency: true } } },
      },
      revision: {
        select: { decisions: { orderBy: { decidedAt: 'desc' }, take: 1, select: decisionColumns } },
      },
      pieces: { select: pieceColumns, orderBy: { number: 'asc' } },
      operations: {
        select: {
          id: true,
          key: true,
          name: true,
          plannedSetUpMinutes: true,
          plannedRunMinutesPerPiece: true,
          doneAt: true,
          logs: {
            select: {
              pieceId: true,
              startedAt: true,
              endedAt: true,
              by: { select: { name: true } },
            },
          },
        },
        orderBy: { position: 'asc' },
      },
      faults: {
        select: {
          id: true,
          pieceId: true,
          version: true,
          number: true,
          description: true,
          disposition: true,
          whyText: true,
          openedAt: true,
          decidedAt: true,
          openedBy: { select: { name: true } },
          decidedBy: { select: { name: true } },
        },
        orderBy: { id: 'asc' },
      },
      stockPieces: {
        select: {
          id: true,
          lengthMm: true,
          isOffcut: true,
          place: true,
          usedAt: true,
          lot: { select: lotColumns },
          pieces: { select: { number: true, jobId: true }, orderBy: { number: 'asc' } },
          cuts: { select: { id: true, lengthMm: true } },
        },
        orderBy: [{ usedAt: { sort: 'asc', nulls: 'first' } }, { id: 'asc' }],
      },
      fillerEntries: {
        select: {
          id: true,
          kind: true,
          massKg: true,
          at: true,
          noteText: true,
          by: { select: { name: true } },
          filler: { select: { id: true, shopNumber: true, name: true } },
        },
        orderBy: { id: 'asc' },
      },
      releases: {
        select: {
          id: true,
          number: true,
          at: true,
          by: { select: { name: true } },
          pieces: { select: { piece: { select: { number: true } } } },
        },
        orderBy: { id: 'asc' },
      },
      lessons: { select: { kind: true, acceptedAt: true, declinedAt: true } },
    },
  })
}

export type ReadJob = NonNullable<Awaited<ReturnType<typeof readJob>>>

const decisionColumns = { way: true, quantity: true, decidedAt: true } as const

const lotColumns = {
  id: true,
  number: true,
  heatNumber: true,
  place: true,
  certificateFileId: true,
} as const

const pieceColumns = {
  id: true,
  number: true,
  status: true,
  scanCode: true,
  replaces: { select: { number: true } },
  stockPiece: { select: { id: true, lot: { select: lotColumns } } },
  bendRecords: {
    select: {
      id: true,
      bendPosition: true,
      tryNumber: true,
      at: true,
      by: { select: { name: true } },
      loadedAngleDeg: true,
      angleAtPressDeg: true,
      angleFinalDeg: true,
      look: true,
      dyePenetrant: true,
      gaugeText: true,
      gaugeUncertaintyDeg: true,
      verdict: true,
      reasons: true,
      noteText: true,
      faults: { select: { number: true, disposition: true } },
      photos: { select: { id: true } },
    },
    orderBy: [{ bendPosition: 'asc' }, { tryNumber: 'asc' }],
  },
} as const satisfies Prisma.PieceSelect

/** Bars a job may take: of its alloy and size, free or reserved for it, the shortest first so that offcuts go before bars. */
export async function readBarsForJob(
  job: { id: number },
  tube: {
    materialId: string
    shape: 'square' | 'rectangular' | 'round'
    widthMm: number
    heightMm: number
    wallMm: number
  },
) {
  const near = (mm: number) => ({ gte: mm - sameSizeMm, lte: mm + sameSizeMm })
  return db.stockPiece.findMany({
    where: {
      usedAt: null,
      OR: [{ reservedForJobId: null }, { reservedForJobId: job.id }],
      lot: {
        materialId: { startsWith: tube.materialId.split('-')[0] ?? tube.materialId },
        shape: tube.shape,
        widthMm: near(tube.widthMm),
        heightMm: near(tube.heightMm),
        wallMm: near(tube.wallMm),
      },
    },
    orderBy: [{ lengthMm: 'asc' }, { id: 'asc' }],
    take: 200,
    select: {
      id: true,
      lengthMm: true,
      isOffcut: true,
      place: true,
      reservedForJobId: true,
      lot: { select: { ...lotColumns, materialId: true } },
    },
  })
}
