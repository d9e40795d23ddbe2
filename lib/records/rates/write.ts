import 'server-only'
import type { RatesChange } from '@/lib/records/rates/schema'
import { db } from '@/lib/server/db'
import { changedMeanwhile } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

/** Puts a new sheet of rates in force; the one it was made from stays, for the estimates that were made with it. */
export async function changeRates(input: RatesChange, actor: Actor): Promise<{ id: number }> {
  return db.$transaction(async (tx) => {
    await tx.$executeRaw`select pg_advisory_xact_lock(hashtext('change the rates'))`
    const latest = await tx.rateSheet.findFirst({ select: { id: true }, orderBy: { id: 'desc' } })
    if (latest?.id !== input.baseId) throw changedMeanwhile('sheet of rates')
    const { id } = await tx.rateSheet.create({
      data: { createdById: actor.userId, reasonText: input.reasonText, rates: asJson(input.rates) },
      select: { id: true },
    })
    await recordChange(tx, {
      by: actor,
      action: 'changed the rates',
      entity: 'RateSheet',
      entityId: id,
      detailText: input.reasonText,
    })
    return { id }
  })
}
