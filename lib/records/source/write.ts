import 'server-only'
import type { NewSource, SourceChange, SourcePress } from '@/lib/records/source/schema'
import { db } from '@/lib/server/db'
import { changedMeanwhile } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/** Adds an outside bender. */
export async function addSource(input: NewSource, actor: Actor): Promise<{ id: number }> {
  return db.$transaction(async (tx) => {
    const { id } = await tx.source.create({ data: input, select: { id: true } })
    await recordChange(tx, { by: actor, action: 'added', entity: 'Source', entityId: id, after: input })
    return { id }
  })
}

/** Changes what is known of an outside bender. */
export async function changeSource(input: SourceChange, actor: Actor): Promise<{ version: number }> {
  const { id, version, ...data } = input
  return db.$transaction(async (tx) => {
    const before = await tx.source.findUnique({ where: { id } })
    const { count } = await tx.source.updateMany({
      where: { id, version },
      data: { ...data, version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('bender')
    await recordChange(tx, {
      by: actor,
      action: 'changed',
      entity: 'Source',
      entityId: id,
      before,
      after: data,
    })
    return { version: version + 1 }
  })
}

/** Out of lists and choices; what was asked of them is kept. */
export async function archiveSource(input: SourcePress, actor: Actor): Promise<SourcePress> {
  return setArchived(input, actor, new Date())
}

export async function restoreSource(input: SourcePress, actor: Actor): Promise<SourcePress> {
  return setArchived(input, actor, null)
}

async function setArchived(input: SourcePress, actor: Actor, archivedAt: Date | null): Promise<SourcePress> {
  return db.$transaction(async (tx) => {
    const { count } = await tx.source.updateMany({
      where: input,
      data: { archivedAt, version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('bender')
    await recordChange(tx, {
      by: actor,
      action: archivedAt === null ? 'brought back' : 'put away',
      entity: 'Source',
      entityId: input.id,
    })
    return { id: input.id, version: input.version + 1 }
  })
}
