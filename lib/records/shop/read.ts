import 'server-only'
import { redirect } from 'next/navigation'
import { cache } from 'react'
import { readFile } from '@/lib/records/file/read'
import { db } from '@/lib/server/db'
import { env } from '@/lib/server/env'
import { type Readiness, readiness } from '@/lib/server/readiness'
import { setupKeyFits } from '@/lib/server/setup-key'

/** The shop's settings, read once a request; before there is a shop, the way leads to its setting up. */
export const readShop = cache(async () => {
  const shop = await db.shop.findUnique({ where: { id: 1 }, omit: { demoMark: true } })
  if (!shop) redirect('/setup')
  return shop
})

/** The shop's settings. Has lengthUnit and currency, so that it is also the ShopUnits of a form. */
export type ShopSettings = Awaited<ReturnType<typeof readShop>>

/** The picture at the head of the shop's papers; null where it has none. */
export async function readLogo(logoId: number | null | undefined) {
  const file = logoId ? await readFile(logoId) : null
  return file && { mediaType: file.mediaType, content: await file.content() }
}

/** For screens that stand open before anybody is signed in. */
export async function readShopName(): Promise<string | null> {
  const shop = await db.shop.findUnique({ where: { id: 1 }, select: { name: true } })
  return shop?.name ?? null
}

/** done: somebody has an account. open: nobody has, and whoever asks has the key that the start printed. */
export async function readSetUpState(key: string): Promise<'done' | 'open' | 'locked'> {
  if ((await db.user.count()) > 0) return 'done'
  return setupKeyFits(key) ? 'open' : 'locked'
}

export function demoIsPreselected(): boolean {
  return env().BENDWRIGHT_DEMO === '1'
}

export function readReadiness(): Promise<Readiness> {
  return readiness()
}
