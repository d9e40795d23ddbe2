import 'server-only'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import { wholeRates } from '@/lib/records/rates/rules'
import type { RatesChange } from '@/lib/records/rates/schema'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

/** Puts a new sheet of rates in force; the one it was made from stays, for the estimates that were made with it. */
export async function changeRates(input: RatesChange, actor: Actor): Promise<{ id: number }> {
  return db.$transaction(async (tx) => {
    await lockRates(tx)
    const latest = await tx.rateSheet.findFirst({ select: { id: true }, orderBy: { id: 'desc' } })
    if (latest?.id !== input.baseId) throw changedMeanwhile('sheet of rates')
    return addRateSheet(tx, input, actor)
  })
}

/** Inside a larger intention, such as accepting what a job taught: the rates in force are changed by `change`. */
export async function amendRates(
  tx: Tx,
  change: (rates: ShopRates) => { rates: ShopRates; reasonText: string },
  actor: Actor,
): Promise<{ id: number }> {
  await lockRates(tx)
  const latest = await tx.rateSheet.findFirst({ select: { rates: true }, orderBy: { id: 'desc' } })
  return addRateSheet(tx, change(wholeRates(latest?.rates)), actor)
}

/** Two changes at once are made one after the other, so that neither loses the other's numbers. */
async function lockRates(tx: Tx): Promise<void> {
  await tx.$executeRaw`select pg_advisory_xact_lock(hashtext('change the rates'))`
}

async function addRateSheet(
  tx: Tx,
  sheet: { rates: ShopRates; reasonText: string },
  actor: Actor,
): Promise<{ id: number }> {
  const { id } = await tx.rateSheet.create({
    data: { createdById: actor.userId, reasonText: sheet.reasonText, rates: asJson(sheet.rates) },
    select: { id: true },
  })
  await recordChange(tx, {
    by: actor,
    action: 'changed the rates',
    entity: 'RateSheet',
    entityId: id,
    detailText: sheet.reasonText,
  })
  return { id }
}
