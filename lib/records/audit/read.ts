import 'server-only'
import { db, Prisma } from '@/lib/server/db'

const pageSize = 50

export type AuditFilter = {
  entity?: string
  entityId?: string
  actorId?: number
  text?: string
  beforeId?: bigint
}

/** The trail, newest first, a page at a time from `beforeId` down. */
export async function readAudit(filter: AuditFilter) {
  const { entity, entityId, actorId, text, beforeId } = filter
  const holding = text ? ({ contains: text, mode: 'insensitive' } as const) : undefined
  const rows = await db.auditEntry.findMany({
    where: {
      ...(entity ? { entity } : {}),
      ...(entityId ? { entityId } : {}),
      ...(actorId ? { actorId } : {}),
      ...(beforeId ? { id: { lt: beforeId } } : {}),
      ...(holding ? { OR: [{ detailText: holding }, { action: holding }, { actorText: holding }] } : {}),
    },
    orderBy: { id: 'desc' },
    take: pageSize + 1,
  })
  const shown = rows.slice(0, pageSize)
  const last = shown.at(-1)
  return { entries: shown, nextBeforeId: rows.length > pageSize && last ? String(last.id) : null }
}

/** What the trail can be narrowed to. */
export async function readAuditChoices() {
  const people = await db.user.findMany({
    select: { id: true, name: true },
    orderBy: { name: 'asc' },
    take: 200,
  })
  return { people, entities: Object.values(Prisma.ModelName).filter((name) => !unlisted.has(name)) }
}

/** Tables that no history line is ever about. */
const unlisted = new Set<string>([
  'AuditEntry',
  'NumberSeries',
  'SignInAttempt',
  'Session',
  'OneTimeLink',
  'SubmitKey',
])
