import Link from 'next/link'
import type { ReactNode } from 'react'
import { AppShell, shopNav } from '@/app/_ui/shell'
import { readShop } from '@/lib/records/shop/read'
import type { Permission } from '@/lib/server/permissions'
import { currentActor, may } from '@/lib/server/session'
import { SignOutForm } from './sign-out-form'

/** What a role has to be allowed for a place to stand in its menu. */
const neededFor: Readonly<Record<string, Permission>> = {
  '/': 'today.read',
  '/parts': 'part.read',
  '/asks': 'ask.read',
  '/quotes': 'quote.read',
  '/jobs': 'job.read',
  '/bench': 'bench.read',
  '/stock': 'stock.read',
  '/customers': 'customer.read',
  '/shop': 'tooling.read',
}

/**
 * The frame of every signed-in screen: its menu by role, who is signed in, the way out. A noun's layout.tsx exports
 * this as its own. It lets nobody in or out: each page asks requireActor.
 */
export default async function ShopLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor()
  if (!actor) return <>{children}</>
  const shop = await readShop()
  const items = shopNav.filter(({ href }) => {
    const permission = neededFor[href]
    return permission === undefined || may(actor, permission)
  })
  const way = (
    <>
      <Link className="button button-quiet" href="/account">
        Account
      </Link>
      <SignOutForm />
    </>
  )
  return (
    <AppShell items={items} shopName={shop.name} userName={actor.name} roleLabel={actor.role} signOut={way}>
      {children}
    </AppShell>
  )
}
