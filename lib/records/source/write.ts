import 'server-only'
import type { NewSource, SourceChange } from '@/lib/records/source/schema'
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
