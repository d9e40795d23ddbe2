import 'server-only'
import type { FillerAlloyChange, FillerAlloyPress, NewFillerAlloy } from '@/lib/records/filler-alloy/schema'
import { db } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

export async function addFillerAlloy(typed: NewFillerAlloy, actor: Actor): Promise<{ id: string }> {
  const { id } = typed
  return db.$transaction(async (tx) => {
    // Two people who add one name at once, in capitals or not, come one after the other.
    await tx.$executeRaw`lock table "FillerAlloy" in share row exclusive mode`
    const taken = await tx.fillerAlloy.findFirst({
      where: { id: { equals: id, mode: 'insensitive' } },
      select: { id: true },
    })
    if (taken)
      throw new Refused('bad-input', `The shop has its own ${taken.id} already: change that one`, 'id')
    await tx.fillerAlloy.create({ data: { id, data: asJson(typed) } })
    await recordChange(tx, { by: actor, action: 'added', entity: 'FillerAlloy', entityId: id, after: typed })
    return { id }
  })
}

/** Changes what is known of an alloy. Parts and jobs planned before keep the values they were planned with. */
export async function changeFillerAlloy(
  { version, ...typed }: FillerAlloyChange,
  actor: Actor,
): Promise<{ id: string; version: number }> {
  const { id } = typed
  return db.$transaction(async (tx) => {
    const before = await tx.fillerAlloy.findUnique({ where: { id }, select: { data: true } })
    if (!before) throw new Refused('not-found', 'The shop has no such alloy of its own.')
    const { count } = await tx.fillerAlloy.updateMany({
      where: { id, version },
      data: { data: asJson(typed), version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('alloy')
    await recordChange(tx, {
      by: actor,
      action: 'changed',
      entity: 'FillerAlloy',
      entityId: id,
      before: before.data,
      after: typed,
    })
    return { id, version: version + 1 }
  })
}

/** Takes an alloy off the table, while no pot holds it. */
export async function removeFillerAlloy(
  { id, version }: FillerAlloyPress,
  actor: Actor,
): Promise<{ id: string }> {
  return db.$transaction(async (tx) => {
    // A pot of it that is being saved is waited for and then seen.
    await tx.$queryRaw`select id from "FillerAlloy" where id = ${id} for update`
    const before = await tx.fillerAlloy.findUnique({
      where: { id },
      select: { data: true, pots: { select: { shopNumber: true }, take: 1 } },
    })
    if (!before) throw new Refused('already-done', 'It is gone already.')
    const [pot] = before.pots
    if (pot) throw new Refused('still-in-use', `Pot ${pot.shopNumber} holds it.`)
    const { count } = await tx.fillerAlloy.deleteMany({ where: { id, version } })
    if (count !== 1) throw changedMeanwhile('alloy')
    await recordChange(tx, {
      by: actor,
      action: 'removed',
      entity: 'FillerAlloy',
      entityId: id,
      before: before.data,
    })
    return { id }
  })
}
