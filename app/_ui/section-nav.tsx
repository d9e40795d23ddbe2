'use client'

import Link from 'next/link'

export interface SectionLink {
  href: string
  label: string
  count?: number
  current?: boolean
}

/** On a phone the row is wider than the screen: the current tab comes to its middle, the page stays put. */
function bringIntoRow(tab: HTMLAnchorElement | null) {
  const row = tab?.closest('ul')
  if (tab && row) row.scrollLeft = tab.offsetLeft - row.offsetLeft - (row.clientWidth - tab.offsetWidth) / 2
}

/** Tabs that are links: every one has its own address. */
export function SectionNav({ label, links }: { label: string; links: readonly SectionLink[] }) {
  return (
    <nav className="section-nav" aria-label={label}>
      <ul>
        {links.map((link) => (
          <li key={link.href}>
            <Link
              ref={link.current ? bringIntoRow : undefined}
              href={link.href}
              aria-current={link.current ? 'page' : undefined}
              scroll={false}
            >
              {link.label}
              {link.count !== undefined && <span className="count">{link.count}</span>}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}
