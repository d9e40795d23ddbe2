import 'server-only'
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
  const text = { contains: query.search, mode: 'insensitive' as const }
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
