import 'server-only'
import { Prisma, type Tx } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { claimSubmitKey } from '@/lib/server/submit-key'

type Change = {
  /** The person, or in words who else: 'customer link', 'demo shop', 'the app'. */
  by: Actor | string
  /** Verb in the past: 'sent', 'accepted', 'measured'. */
  action: string
  entity: Prisma.ModelName
  entityId: number | string
  detailText?: string
  before?: unknown
  after?: unknown
}

function json(value: unknown): Prisma.InputJsonValue | undefined {
  return value === undefined ? undefined : (JSON.parse(JSON.stringify(value)) as Prisma.InputJsonValue)
}

/** Adds one line to the audit trail, in the transaction of the change it tells of. */
export async function recordChange(tx: Tx, change: Change): Promise<void> {
  await claimSubmitKey(tx)
  const { by } = change
  await tx.auditEntry.create({
    data: {
      actorId: typeof by === 'string' ? null : by.userId,
      actorText: typeof by === 'string' ? by : by.name,
      action: change.action,
      entity: change.entity,
      entityId: String(change.entityId),
      detailText: change.detailText ?? '',
      before: json(change.before),
      after: json(change.after),
    },
  })
}
