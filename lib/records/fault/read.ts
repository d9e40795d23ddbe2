import 'server-only'
import { literalSearch } from '@/lib/records/fields'
import { db, type Prisma } from '@/lib/server/db'

export const faultsPerPage = 50

export type FaultState = 'open' | 'decided' | 'all'

const stateWhere: Readonly<Record<FaultState, Prisma.NonconformanceWhereInput>> = {
  open: { disposition: null },
  decided: { disposition: { not: null } },
  all: {},
}

/** A page of faults: open ones the oldest first, since somebody waits on them; decided ones the newest first. */
export async function readFaults(query: { state: FaultState; search: string; page: number }) {
  const text = { contains: literalSearch(query.search), mode: 'insensitive' as const }
  const where: Prisma.NonconformanceWhereInput = {
    ...stateWhere[query.state],
    ...(query.search && {
      OR: [
        { number: text },
        { description: text },
        { whyText: text },
        { job: { number: text } },
        { job: { revision: { part: { name: text } } } },
      ],
    }),
  }
  const [count, openCount, decidedCount, faults] = await Promise.all([
    db.nonconformance.count({ where }),
    db.nonconformance.count({ where: stateWhere.open }),
    db.nonconformance.count({ where: stateWhere.decided }),
    db.nonconformance.findMany({
      where,
      orderBy: { id: query.state === 'open' ? 'asc' : 'desc' },
      skip: (query.page - 1) * faultsPerPage,
      take: faultsPerPage,
      select: {
        id: true,
        number: true,
        description: true,
        openedAt: true,
        openedBy: { select: { name: true } },
        disposition: true,
        whyText: true,
        decidedAt: true,
        decidedBy: { select: { name: true } },
        piece: { select: { number: true } },
        job: {
          select: { id: true, number: true, revision: { select: { part: { select: { name: true } } } } },
        },
      },
    }),
  ])
  return { faults, openCount, decidedCount, pageCount: Math.max(1, Math.ceil(count / faultsPerPage)) }
}

const person = { select: { name: true } } as const

const lotOfTube = { id: true, number: true, heatNumber: true, certificateFileId: true } as const

const tryColumns = {
  id: true,
  bendPosition: true,
  tryNumber: true,
  at: true,
  by: person,
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
  gaugeText: true,
  gaugeUncertaintyDeg: true,
  verdict: true,
  reasons: true,
  noteText: true,
  photos: { select: { id: true }, orderBy: { id: 'asc' } },
} as const satisfies Prisma.BendRecordSelect

/** One fault with the try that opened it and all that followed; null when there is none. */
export async function readFault(id: number) {
  const fault = await db.nonconformance.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      version: true,
      description: true,
      openedAt: true,
      openedBy: person,
      disposition: true,
      whyText: true,
      decidedAt: true,
      decidedBy: person,
      job: {
        select: {
          id: true,
          number: true,
          status: true,
          revisionId: true,
          customer: { select: { name: true } },
          revision: {
            select: {
              letter: true,
              materialId: true,
              shape: true,
              widthMm: true,
              heightMm: true,
              wallMm: true,
              part: { select: { id: true, number: true, name: true } },
              bends: { select: { angleDeg: true }, orderBy: { position: 'asc' } },
            },
          },
        },
      },
      piece: {
        select: {
          id: true,
          number: true,
          status: true,
          scanCode: true,
          stockPiece: { select: { lot: { select: lotOfTube } } },
          bendRecords: { select: tryColumns, orderBy: [{ bendPosition: 'asc' }, { tryNumber: 'asc' }] },
          replacements: {
            select: {
              id: true,
              number: true,
              status: true,
              scanCode: true,
              stockPiece: { select: { lot: { select: lotOfTube } } },
            },
          },
          releases: { select: { release: { select: { id: true, number: true, at: true } } } },
        },
      },
      bendRecord: { select: tryColumns },
      photos: { select: { id: true }, orderBy: { id: 'asc' } },
    },
  })
  if (!fault) return null
  const replacementIds = fault.piece?.replacements.map((piece) => String(piece.id)) ?? []
  const lines = await db.auditEntry.findMany({
    where: {
      OR: [
        { entity: 'Nonconformance', entityId: String(id) },
        { entity: 'Piece', entityId: { in: replacementIds }, action: 'started a replacement' },
      ],
    },
    orderBy: { id: 'asc' },
    select: {
      id: true,
      at: true,
      actorText: true,
      action: true,
      detailText: true,
      entity: true,
      after: true,
    },
  })
  const takenId = lines.flatMap(({ entity, after }) => (entity === 'Piece' ? takenTube(after) : []))[0]
  const taken =
    takenId === undefined
      ? null
      : await db.stockPiece.findUnique({
          where: { id: takenId },
          select: { id: true, lengthMm: true, isOffcut: true, usedAt: true, lot: { select: lotOfTube } },
        })
  return {
    ...fault,
    /** The tube that was reserved for the replacement with the decision. */
    taken,
    history: lines.map(({ after: _, entity: __, ...line }) => line),
  }
}

function takenTube(after: unknown): number[] {
  const id =
    typeof after === 'object' && after !== null ? (after as { stockPieceId?: unknown }).stockPieceId : null
  return typeof id === 'number' ? [id] : []
}

export type ReadFault = NonNullable<Awaited<ReturnType<typeof readFault>>>
export type FaultTry = NonNullable<ReadFault['bendRecord']>
