import type { ReactNode } from 'react'
import ShopLayout from '@/app/_shop/layout'
import type { Permission } from '@/lib/server/permissions'
import { currentActor, may } from '@/lib/server/session'
import { PlacesNav } from './places-nav'

const places: readonly { href: string; label: string; needs: Permission }[] = [
  { href: '/shop', label: 'Overview', needs: 'tooling.read' },
  { href: '/shop/presses', label: 'Presses', needs: 'tooling.read' },
  { href: '/shop/dies', label: 'Dies', needs: 'tooling.read' },
  { href: '/shop/straps', label: 'Straps', needs: 'tooling.read' },
  { href: '/shop/fillers', label: 'Fillers', needs: 'tooling.read' },
  { href: '/shop/rates', label: 'Rates', needs: 'shop.read' },
  { href: '/shop/settings', label: 'Settings', needs: 'shop.read' },
  { href: '/shop/data', label: 'Data', needs: 'data.export' },
  { href: '/people', label: 'People', needs: 'person.read' },
  { href: '/audit', label: 'Audit', needs: 'audit.read' },
]

/** The shop's own places, under the frame that every screen has; /people and /audit stand in it too. */
export default async function ShopPlacesLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor()
  const open = actor ? places.filter(({ needs }) => may(actor, needs)) : []
  return (
    <ShopLayout>
      {open.length > 0 && <PlacesNav places={open.map(({ href, label }) => ({ href, label }))} />}
      <div className="stack stack-loose">{children}</div>
    </ShopLayout>
  )
}
