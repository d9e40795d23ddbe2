'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'

export interface NavItem {
  href: string
  label: string
}

/** The way round the shop's screens; knows which of them is open. */
export function ShellNav({ items, menuId }: { items: readonly NavItem[]; menuId: string }) {
  const pathname = usePathname()
  return (
    <ul>
      {items.map((item) => {
        const here = item.href === '/' ? pathname === '/' : `${pathname}/`.startsWith(`${item.href}/`)
        return (
          <li key={item.href}>
            <Link
              href={item.href}
              aria-current={here ? 'page' : undefined}
              onClick={() => {
                const menu = document.getElementById(menuId)
                if (menu?.matches(':popover-open')) menu.hidePopover()
              }}
            >
              {item.label}
            </Link>
          </li>
        )
      })}
    </ul>
  )
}
