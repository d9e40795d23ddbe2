import 'server-only'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import type { SetUp } from '@/lib/records/shop/schema'
import { db } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
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
