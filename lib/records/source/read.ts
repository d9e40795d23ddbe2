import 'server-only'
import { literalSearch } from '@/lib/records/fields'
import { sourceHistory } from '@/lib/records/source/rules'
import { db, type Prisma } from '@/lib/server/db'

export const sourcesPerPage = 50

const historySelect = {
  status: true,
  sentOn: true,
  repliedOn: true,
  promisedOn: true,
  deliveredOn: true,
  orderedQuantity: true,
  rejectedQuantity: true,
} as const satisfies Prisma.AskSelect

/** Outside benders by name with how they have answered so far, a page at a time. */
export async function readSources(ask: { search: string; page: number; archived: boolean }) {
  const has = { contains: literalSearch(ask.search), mode: 'insensitive' } as const
  const where: Prisma.SourceWhereInput = {
    archivedAt: ask.archived ? { not: null } : null,
    ...(ask.search !== '' && {
      OR: [{ name: has }, { canBendText: has }, { alloysText: has }, { contactText: has }],
    }),
  }
  const [count, sources] = await Promise.all([
    db.source.count({ where }),
    db.source.findMany({
      where,
      orderBy: [{ name: 'asc' }, { id: 'asc' }],
      skip: (ask.page - 1) * sourcesPerPage,
      take: sourcesPerPage,
      select: {
        id: true,
        name: true,
        canBendText: true,
        alloysText: true,
        minimumRadiusRatio: true,
        maximumSizeMm: true,
        asks: { select: historySelect },
      },
    }),
  ])
  return {
    sources: sources.map(({ asks, ...source }) => ({ ...source, history: sourceHistory(asks) })),
    pageCount: Math.max(1, Math.ceil(count / sourcesPerPage)),
  }
}

/** One bender with the history of what was asked of them. */
export async function readSource(id: number) {
  const source = await db.source.findUnique({
    where: { id },
    include: { asks: { select: historySelect } },
  })
  if (!source) return null
  const { asks, ...facts } = source
  return { ...facts, history: sourceHistory(asks) }
}

/** For choosing whom to ask: everybody not put away, with how they answer. */
export async function readSourceChoices() {
  const sources = await db.source.findMany({
    where: { archivedAt: null },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
    select: {
      id: true,
      name: true,
      canBendText: true,
      minimumRadiusRatio: true,
      maximumSizeMm: true,
      asks: { select: historySelect },
    },
  })
  return sources.map(({ asks, ...source }) => ({ ...source, history: sourceHistory(asks) }))
}
