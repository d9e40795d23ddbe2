import 'server-only'
import { alloyById } from '@/lib/core/materials/alloys'
import { ownAlloy } from '@/lib/records/material/rules'
import type { MaterialChange, MaterialPress, NewMaterial } from '@/lib/records/material/schema'
import { db } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

/** Adds a material. One of the table's is stood in for only by who says so, under the table's own spelling. */
export async function addMaterial(
  { overTable, ...values }: NewMaterial,
  actor: Actor,
): Promise<{ id: string }> {
  const table = alloyById(values.id)
  if (table && !overTable) {
    throw new Refused(
      'bad-input',
      `The table has ${table.id} already. Give yours another name, or say that your values stand in for the table’s.`,
      'id',
    )
  }
  if (!table && overTable) {
    throw new Refused('bad-input', 'The table has no such material to stand in for', 'id')
  }
  const id = table?.id ?? values.id
  const data = ownAlloy({ ...values, id })
  return db.$transaction(async (tx) => {
    // Two people who add one name at once, in capitals or not, come one after the other.
    await tx.$executeRaw`lock table "MaterialEntry" in share row exclusive mode`
    const taken = await tx.materialEntry.findFirst({
      where: { id: { equals: id, mode: 'insensitive' } },
      select: { id: true },
    })
    if (taken)
      throw new Refused('bad-input', `The shop has its own ${taken.id} already: change that one`, 'id')
    await tx.materialEntry.create({ data: { id, data: asJson(data) } })
    await recordChange(tx, { by: actor, action: 'added', entity: 'MaterialEntry', entityId: id, after: data })
    return { id }
  })
}

export async function changeMaterial(
  { version, ...values }: MaterialChange,
  actor: Actor,
): Promise<{ id: string; version: number }> {
  const { id } = values
  const data = ownAlloy(values)
  return db.$transaction(async (tx) => {
    const before = await tx.materialEntry.findUnique({ where: { id }, select: { data: true } })
    if (!before) throw new Refused('not-found', 'The shop has no such material of its own.')
    const { count } = await tx.materialEntry.updateMany({
      where: { id, version },
      data: { data: asJson(data), version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('material')
    await recordChange(tx, {
      by: actor,
      action: 'changed',
      entity: 'MaterialEntry',
      entityId: id,
      before: before.data,
      after: data,
    })
    return { id, version: version + 1 }
  })
}

/** Takes the shop's own values away. The table's count again; one that is in no table goes only while nothing is made of it. */
export async function removeMaterial(input: MaterialPress, actor: Actor): Promise<{ id: string }> {
  const { id, version } = input
  return db.$transaction(async (tx) => {
    const before = await tx.materialEntry.findUnique({ where: { id }, select: { data: true } })
    if (!before) throw new Refused('already-done', 'It is gone already.')
    if (!alloyById(id)) {
      const part = await tx.partRevision.findFirst({ where: { materialId: id }, select: { id: true } })
      const lot = await tx.stockLot.findFirst({ where: { materialId: id }, select: { number: true } })
      if (part) throw new Refused('still-in-use', 'A part is made of it.')
      if (lot) throw new Refused('still-in-use', `Lot ${lot.number} is of it.`)
    }
    const { count } = await tx.materialEntry.deleteMany({ where: { id, version } })
    if (count !== 1) throw changedMeanwhile('material')
    await recordChange(tx, {
      by: actor,
      action: 'removed',
      entity: 'MaterialEntry',
      entityId: id,
      before: before.data,
    })
    return { id }
  })
}
