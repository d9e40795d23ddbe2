'use client'

import { usePathname } from 'next/navigation'
import { SectionNav } from '@/app/_ui/section-nav'

export function PlacesNav({ places }: { places: readonly { href: string; label: string }[] }) {
  const pathname = usePathname()
  const isHere = (href: string) =>
    href === '/shop' ? pathname === href : `${pathname}/`.startsWith(`${href}/`)
  return (
    <SectionNav
      label="Places of the shop"
      links={places.map((place) => ({ ...place, current: isHere(place.href) }))}
    />
  )
}
