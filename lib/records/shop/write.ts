import 'server-only'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { cleanFileName, fileKinds } from '@/lib/records/file/rules'
import { keepPicture } from '@/lib/records/file/write'
import type { LogoUpload, SetUp, ShopChange } from '@/lib/records/shop/schema'
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

/** Takes a picture for the head of the papers that go out. Quotes sent before keep the one they went out with. */
export async function changeLogo(input: LogoUpload, actor: Actor): Promise<{ id: number }> {
  const { kind, ...kept } = await keepPicture(new Uint8Array(await input.file.arrayBuffer()))
  const name = cleanFileName(input.file.name)
  return db.$transaction(async (tx) => {
    const file = await tx.storedFile.create({
      data: { ...kept, name, mediaType: fileKinds[kind].mediaType, createdById: actor.userId },
      select: { id: true },
    })
    await nameLogo(tx, file.id, actor, name)
    return file
  })
}

/** The papers go out with the shop's name alone again. */
export async function takeLogoOff(_input: object, actor: Actor): Promise<{ id: null }> {
  return db.$transaction(async (tx) => {
    await nameLogo(tx, null, actor)
    return { id: null }
  })
}

async function nameLogo(tx: Tx, logoId: number | null, actor: Actor, detailText?: string): Promise<void> {
  const [before] = await tx.$queryRaw<{ logoId: number | null }[]>`
    select "logoId" from "Shop" where id = 1 for update`
  if (!before) throw new Refused('not-found', 'There is no shop yet.')
  if (before.logoId === null && logoId === null)
    throw new Refused('already-done', 'There is no picture on the papers.')
  await tx.shop.update({ where: { id: 1 }, data: { logoId }, select: { id: true } })
  await recordChange(tx, {
    by: actor,
    action: logoId === null ? 'took the logo off' : 'changed the logo',
    entity: 'Shop',
    entityId: 1,
    ...(detailText !== undefined && { detailText }),
    before,
    after: { logoId },
  })
}
