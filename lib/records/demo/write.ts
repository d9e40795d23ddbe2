import 'server-only'
import { db, Prisma } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

type Marked = 'Customer' | 'Source' | 'StockLot' | 'Press' | 'Die' | 'Strap' | 'Filler'

/** Remembers which rows are the demo's: those that were there when it had loaded. */
export async function markDemo(): Promise<void> {
  await db.$transaction(async (tx) => {
    const counts = await tx.$queryRaw<{ mark: Prisma.JsonValue }[]>`
      select jsonb_build_object(
        'Customer', (select coalesce(max(id), 0) from "Customer"),
        'Source', (select coalesce(max(id), 0) from "Source"),
        'StockLot', (select coalesce(max(id), 0) from "StockLot"),
        'Press', (select coalesce(max(id), 0) from "Press"),
        'Die', (select coalesce(max(id), 0) from "Die"),
        'Strap', (select coalesce(max(id), 0) from "Strap"),
        'Filler', (select coalesce(max(id), 0) from "Filler")
      ) as mark`
    await tx.shop.update({ where: { id: 1 }, data: { demoMark: asJson(counts[0]?.mark) } })
  })
}

/**
 * Removes the demo shop: its customers, sources, stock and tools, and everything that hangs on them. Accounts, settings,
 * rates and the audit trail stay, and so does whatever was entered for customers of the shop's own.
 */
export async function removeDemo(actor: Actor): Promise<void> {
  await db.$transaction(async (tx) => {
    const shop = await tx.shop.findUniqueOrThrow({ where: { id: 1 }, select: { demoMark: true } })
    const mark = shop.demoMark
    if (mark === null || typeof mark !== 'object' || Array.isArray(mark)) {
      throw new Refused('already-done', 'There is no demo shop here to remove.')
    }
    const upTo = (table: Marked) => Number(mark[table] ?? 0)
    await tx.$executeRaw`set local bendwright.removing_demo = 'on'`
    const customers = Prisma.sql`select id from "Customer" where id <= ${upTo('Customer')}`
    const parts = Prisma.sql`select id from "Part" where "customerId" in (${customers})`
    const revisions = Prisma.sql`select id from "PartRevision" where "partId" in (${parts})`
    const quotes = Prisma.sql`select id from "Quote" where "customerId" in (${customers})`
    const jobs = Prisma.sql`select id from "Job" where "customerId" in (${customers}) or "revisionId" in (${revisions})`
    const pieces = Prisma.sql`select id from "Piece" where "jobId" in (${jobs})`
    const asks = Prisma.sql`select id from "Ask" where "revisionId" in (${revisions})`
    for (const statement of [
      Prisma.sql`delete from "ReleasePiece" where "pieceId" in (${pieces})`,
      Prisma.sql`delete from "Release" where "jobId" in (${jobs})`,
      Prisma.sql`delete from "Lesson" where "jobId" in (${jobs})`,
      Prisma.sql`delete from "StoredFile" where "nonconformanceId" in (select id from "Nonconformance" where "jobId" in (${jobs}))`,
      Prisma.sql`delete from "Nonconformance" where "jobId" in (${jobs})`,
      Prisma.sql`delete from "StoredFile" where "bendRecordId" in (select id from "BendRecord" where "pieceId" in (${pieces}))`,
      Prisma.sql`delete from "BendRecord" where "pieceId" in (${pieces})`,
      Prisma.sql`delete from "OperationLog" where "operationId" in (select id from "JobOperation" where "jobId" in (${jobs}))`,
      Prisma.sql`delete from "FillerEntry" where "jobId" in (${jobs}) or "fillerId" <= ${upTo('Filler')}`,
      Prisma.sql`update "StockPiece" set "reservedForJobId" = null where "reservedForJobId" in (${jobs})`,
      Prisma.sql`update "Piece" set "replacesId" = null where "jobId" in (${jobs})`,
      Prisma.sql`delete from "Piece" where "jobId" in (${jobs})`,
      Prisma.sql`delete from "JobOperation" where "jobId" in (${jobs})`,
      Prisma.sql`delete from "Job" where id in (${jobs})`,
      Prisma.sql`delete from "Quote" where id in (${quotes})`,
      Prisma.sql`delete from "Decision" where "revisionId" in (${revisions})`,
      Prisma.sql`delete from "Estimate" where "revisionId" in (${revisions})`,
      Prisma.sql`delete from "AskPrice" where "askId" in (${asks})`,
      Prisma.sql`delete from "Ask" where id in (${asks})`,
      Prisma.sql`delete from "Setup" where "revisionId" in (${revisions}) or "pressId" <= ${upTo('Press')} or "dieId" <= ${upTo('Die')} or "strapId" <= ${upTo('Strap')} or "fillerId" <= ${upTo('Filler')}`,
      Prisma.sql`delete from "Part" where id in (${parts})`,
      Prisma.sql`delete from "StockPiece" where "lotId" <= ${upTo('StockLot')} and not exists (select 1 from "Piece" p where p."stockPieceId" = "StockPiece".id)`,
      Prisma.sql`delete from "StockLot" l where id <= ${upTo('StockLot')} and not exists (select 1 from "StockPiece" p where p."lotId" = l.id)`,
      Prisma.sql`delete from "Customer" where id in (${customers})`,
      Prisma.sql`delete from "Source" s where id <= ${upTo('Source')} and not exists (select 1 from "Ask" a where a."sourceId" = s.id)`,
      Prisma.sql`delete from "Press" where id <= ${upTo('Press')}`,
      Prisma.sql`delete from "Die" where id <= ${upTo('Die')}`,
      Prisma.sql`delete from "Strap" where id <= ${upTo('Strap')}`,
      Prisma.sql`delete from "Filler" where id <= ${upTo('Filler')}`,
    ]) {
      await tx.$executeRaw(statement)
    }
    await tx.shop.update({ where: { id: 1 }, data: { demoMark: Prisma.DbNull } })
    await recordChange(tx, { by: actor, action: 'removed the demo shop', entity: 'Shop', entityId: 1 })
  })
}
