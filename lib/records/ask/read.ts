import 'server-only'
import { formatDate } from '@/lib/core/format'
import type { AskSending, AskStanding } from '@/lib/records/ask/rules'
import { literalSearch } from '@/lib/records/fields'
import { readAlloy } from '@/lib/records/material/read'
import { readRevision } from '@/lib/records/part/read'
import { readShop, type ShopSettings } from '@/lib/records/shop/read'
import { lateDaysOf } from '@/lib/records/source/rules'
import { db, type Prisma } from '@/lib/server/db'

export const asksPerPage = 50

const rowSelect = {
  id: true,
  status: true,
  quantities: true,
  sentOn: true,
  chaseOn: true,
  chasedCount: true,
  repliedOn: true,
  declineReason: true,
  leadTimeDays: true,
  validUntil: true,
  source: { select: { id: true, name: true } },
  revision: { select: { letter: true, part: { select: { id: true, number: true, name: true } } } },
  prices: { orderBy: { quantity: 'asc' }, select: { quantity: true, unitCents: true } },
} as const satisfies Prisma.AskSelect

function whereStanding(standing: AskStanding, today: Date): Prisma.AskWhereInput {
  if (standing === 'chase') return { status: 'sent', chaseOn: { lte: today } }
  if (standing === 'waiting') return { status: 'sent', chaseOn: { gt: today } }
  return { status: standing === 'answered' ? 'quoted' : standing }
}

/** Asks of all parts, the ones to chase first, a page at a time; with how many stand in each state. */
export async function readAsks(ask: {
  search: string
  page: number
  standing: AskStanding | null
  today: Date
  sourceId?: number
}) {
  const has = { contains: literalSearch(ask.search), mode: 'insensitive' } as const
  const found: Prisma.AskWhereInput = {
    ...(ask.sourceId !== undefined && { sourceId: ask.sourceId }),
    ...(ask.search !== '' && {
      OR: [
        { source: { name: has } },
        { revision: { part: { number: has } } },
        { revision: { part: { name: has } } },
        { declineReason: has },
      ],
    }),
  }
  const where = { AND: [found, ask.standing ? whereStanding(ask.standing, ask.today) : {}] }
  const countOf = (standing: AskStanding) =>
    db.ask.count({ where: { AND: [found, whereStanding(standing, ask.today)] } })
  const [count, asks, chase, waiting, answered, declined, silent] = await Promise.all([
    db.ask.count({ where }),
    db.ask.findMany({
      where,
      // `sent` is the first of the states, so that what still waits comes first.
      orderBy: [{ status: 'asc' }, { chaseOn: 'asc' }, { id: 'desc' }],
      skip: (ask.page - 1) * asksPerPage,
      take: asksPerPage,
      select: rowSelect,
    }),
    countOf('chase'),
    countOf('waiting'),
    countOf('answered'),
    countOf('declined'),
    countOf('silent'),
  ])
  return {
    asks,
    pageCount: Math.max(1, Math.ceil(count / asksPerPage)),
    counts: { chase, waiting, answered, declined, silent } satisfies Record<AskStanding, number>,
  }
}

/** One ask whole, with the prices of its last answer. */
export async function readAsk(id: number) {
  return db.ask.findUnique({
    where: { id },
    include: {
      source: true,
      prices: rowSelect.prices,
      revision: { select: { letter: true, part: { select: { id: true, number: true, name: true } } } },
    },
  })
}

/** What a bender is sent, made from the revision that was asked about; null where there is no such ask. */
export async function readAskPack(
  id: number,
): Promise<
  (AskSending & { ask: NonNullable<Awaited<ReturnType<typeof readAsk>>>; shop: ShopSettings }) | null
> {
  const ask = await readAsk(id)
  const revision = ask && (await readRevision(ask.revisionId))
  if (!ask || !revision) return null
  const [shop, material] = await Promise.all([readShop(), readAlloy(revision.materialId)])
  const day = (at: Date) =>
    formatDate(at.toISOString().slice(0, 10), { locale: 'en-US', timeZone: shop.timeZone })
  const { part, ...facts } = revision
  return {
    ask,
    source: ask.source,
    shop,
    endTemperText: material?.alloy.temper ?? '',
    pack: {
      askId: ask.id,
      sentOn: day(ask.sentOn),
      replyBy: day(ask.chaseOn),
      quantities: ask.quantities,
      notesText: ask.notesText,
      partNumber: part.number,
      letter: revision.letter,
      partName: part.name,
      // The name may leave the temper to its words: the id is what a mill certificate says.
      materialText: material ? `${revision.materialId} (${material.alloy.name})` : revision.materialId,
      revision: facts,
    },
  }
}

/** Every ask of a revision with its answer, for standing side by side. */
export async function readAsksOfRevision(revisionId: number) {
  const asks = await db.ask.findMany({
    where: { revisionId },
    orderBy: { id: 'asc' },
    take: 200,
    include: { source: { select: { id: true, name: true } }, prices: rowSelect.prices },
  })
  const delivered = await db.ask.findMany({
    where: { sourceId: { in: asks.map(({ sourceId }) => sourceId) }, deliveredOn: { not: null } },
    select: { sourceId: true, promisedOn: true, deliveredOn: true },
  })
  return asks.map((ask) => ({
    ...ask,
    lateDays: lateDaysOf(delivered.filter(({ sourceId }) => sourceId === ask.sourceId)),
  }))
}

/** What happened to an ask: who asked, chased, logged which answer; earlier answers stay here when a later one replaces them. */
export async function readAskHistory(ask: { id: number; revisionId: number }) {
  const entries = await db.auditEntry.findMany({
    where: {
      OR: [
        { entity: 'Ask', entityId: String(ask.id) },
        {
          entity: 'PartRevision',
          entityId: String(ask.revisionId),
          action: 'asked outside',
          after: { path: ['askIds'], array_contains: ask.id },
        },
      ],
    },
    orderBy: { id: 'desc' },
    take: 100,
    select: { id: true, at: true, actorText: true, action: true, before: true },
  })
  return entries.map(({ before, ...entry }) => ({ ...entry, replaced: answerIn(before) }))
}

/** Prices as the trail kept them; null where the line before held none. */
function answerIn(before: Prisma.JsonValue): { quantity: number; unitCents: number }[] | null {
  if (before === null || typeof before !== 'object' || Array.isArray(before)) return null
  const prices = before.prices
  if (!Array.isArray(prices)) return null
  const read = prices.flatMap((price) =>
    price !== null && typeof price === 'object' && !Array.isArray(price)
      ? [{ quantity: Number(price.quantity), unitCents: Number(price.unitCents) }]
      : [],
  )
  return read.length > 0 ? read : null
}
