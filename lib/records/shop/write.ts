import 'server-only'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import type { SetUp, ShopChange } from '@/lib/records/shop/schema'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import { hashPassword } from '@/lib/server/password'
import { type Actor, openSession } from '@/lib/server/session'
import { setupKeyFits } from '@/lib/server/setup-key'

/** Makes the shop, its owner's account and its first rates, and signs the owner in. Works once. */
export async function setUpShop(input: SetUp): Promise<Actor> {
  if (!setupKeyFits(input.key)) {
    throw new Refused(
      'not-allowed',
      'This is not the key that the start printed. Open the address it printed.',
    )
  }
  const passwordHash = await hashPassword(input.password)
  return db.$transaction(async (tx) => {
    await tx.$executeRaw`select pg_advisory_xact_lock(hashtext('set up the shop'))`
    if ((await tx.user.count()) > 0)
      throw new Refused('already-done', 'This shop is set up already. Sign in instead.')
    const { name, currency, lengthUnit, paper, timeZone } = input
    await tx.shop.create({ data: { name, currency, lengthUnit, paper, timeZone } })
    const owner = await tx.user.create({
      data: { login: input.login, name: input.ownerName, role: 'owner', passwordHash },
      select: { id: true },
    })
    await tx.rateSheet.create({
      data: {
        createdById: owner.id,
        reasonText: 'Starting figures, to be replaced by the shop’s own',
        rates: asJson(defaultShopRates),
      },
    })
    const actor = await openSession(tx, { userId: owner.id })
    await recordChange(tx, {
      by: actor,
      action: 'set up',
      entity: 'Shop',
      entityId: 1,
      after: { name, currency, lengthUnit, paper, timeZone },
    })
    return actor
  })
}

/** Saves the shop's settings. Money that is kept was meant in the currency it was typed in, so that one stays once there is any. */
export async function changeShop(input: ShopChange, actor: Actor): Promise<{ version: number }> {
  const { version, ...after } = input
  return db.$transaction(async (tx) => {
    const before = await tx.shop.findUniqueOrThrow({ where: { id: 1 }, omit: { demoMark: true } })
    if (after.currency !== before.currency && (await holdsMoney(tx))) {
      throw new Refused(
        'wrong-state',
        `Prices are kept in ${before.currency} already, and would only be renamed. The currency stays.`,
        'currency',
      )
    }
    const { count } = await tx.shop.updateMany({
      where: { id: 1, version },
      data: { ...after, version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('shop’s settings')
    await recordChange(tx, { by: actor, action: 'changed', entity: 'Shop', entityId: 1, before, after })
    return { version: version + 1 }
  })
}

async function holdsMoney(tx: Tx): Promise<boolean> {
  const first = { select: { id: true } } as const
  return (
    (await tx.estimate.findFirst(first)) !== null ||
    (await tx.quote.findFirst(first)) !== null ||
    (await tx.ask.findFirst(first)) !== null ||
    (await tx.stockLot.findFirst(first)) !== null
  )
}
