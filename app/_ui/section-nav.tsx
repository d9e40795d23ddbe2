import Link from 'next/link'

export interface SectionLink {
  href: string
  label: string
  count?: number
  current?: boolean
}

/** Tabs that are links: every one has its own address. */
export function SectionNav({ label, links }: { label: string; links: readonly SectionLink[] }) {
  return (
    <nav className="section-nav" aria-label={label}>
      <ul>
        {links.map((link) => (
          <li key={link.href}>
            <Link href={link.href} aria-current={link.current ? 'page' : undefined} scroll={false}>
              {link.label}
              {link.count !== undefined && <span className="count">{link.count}</span>}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}
