import 'server-only'
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

/** One job with its pieces, operations and faults; null when there is none. */
export async function readJob(id: number) {
  return db.job.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      status: true,
      dueOn: true,
      quantity: true,
      way: true,
      plan: true,
      version: true,
      travellerIssue: true,
      customer: { select: { name: true } },
      revision: {
        select: {
          letter: true,
          bends: { select: { position: true, angleDeg: true }, orderBy: { position: 'asc' } },
          part: { select: { id: true, number: true, name: true } },
        },
      },
      pieces: {
        select: {
          id: true,
          number: true,
          status: true,
          scanCode: true,
          bendRecords: {
            select: {
              bendPosition: true,
              tryNumber: true,
              verdict: true,
              faults: { select: { disposition: true } },
            },
          },
        },
        orderBy: { number: 'asc' },
      },
      operations: {
        select: {
          id: true,
          name: true,
          plannedSetUpMinutes: true,
          plannedRunMinutesPerPiece: true,
          logs: { select: { startedAt: true, endedAt: true } },
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
        },
        orderBy: { id: 'asc' },
      },
    },
  })
}
