import 'server-only'
import { literalSearch } from '@/lib/records/fields'
import { sameSizeMm } from '@/lib/records/stock/rules'
import { db, Prisma } from '@/lib/server/db'

/** Pages are counted this far ahead of the one asked for: counting every job would take longer the more there are. */
const pagesAhead = 20

export type ListedJob = {
  id: number
  number: string
  status: 'open' | 'closed' | 'cancelled'
  dueOn: Date
  quantity: number
  customerName: string
  partNumber: string
  partName: string
  letter: string
  releasedCount: number
}

/** Jobs a page at a time, due first, open before closed. The ids first, so that only a page of rows is joined and counted. */
export async function readJobs(query: { q: string; page: number; pageSize: number }) {
  const ids = query.q ? Prisma.sql`where id in (${jobsFound(query.q)})` : Prisma.empty
  const [count, jobs] = await Promise.all([
    countJobs(query),
    db.$queryRaw<ListedJob[]>`
      select job.id, job.number, job.status::text as status, job."dueOn", job.quantity, customer.name as "customerName",
        part.number as "partNumber", part.name as "partName", revision.letter,
        (select count(*)::int from "Piece" where "jobId" = job.id and status = 'released') as "releasedCount"
      from (select * from "Job" ${ids} order by status, "dueOn", id
          limit ${query.pageSize} offset ${(query.page - 1) * query.pageSize}) job
        join "Customer" customer on customer.id = job."customerId"
        join "PartRevision" revision on revision.id = job."revisionId"
        join "Part" part on part.id = revision."partId"
      order by job.status, job."dueOn", job.id`,
  ])
  return { count, jobs }
}

/**
 * Each of the three places is looked up by its own trigram index; one OR across the joined tables could use none. A whole
 * number names its job and is looked up alone: job numbers are all made of the same few trigrams.
 */
function jobsFound(q: string): Prisma.Sql {
  const has = `%${literalSearch(q)}%`
  return Prisma.sql`
    with named as (select id from "Job" where number = ${q.trim().toUpperCase()})
    select id from named
    union all select id from (select id from "Job" where number ilike ${has}
    union select job.id from "Customer" customer join "Job" job on job."customerId" = customer.id
      where customer.name ilike ${has}
    union select job.id from "Part" part
      join "PartRevision" revision on revision."partId" = part.id
      join "Job" job on job."revisionId" = revision.id
      where part.name ilike ${has} or part.number ilike ${has}) found
    where not exists (select from named)`
}

async function countJobs(query: { q: string; page: number; pageSize: number }): Promise<number> {
  const mostCounted = (query.page - 1 + pagesAhead) * query.pageSize
  const found = query.q ? jobsFound(query.q) : Prisma.sql`select id from "Job"`
  const [row] = await db.$queryRaw<{ count: number }[]>`
    select count(*)::int as count from (select id from (${found}) found limit ${mostCounted}) counted`
  return row?.count ?? 0
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
          leftOutAtIssue: true,
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
      faults: { select: { id: true, number: true, disposition: true } },
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
