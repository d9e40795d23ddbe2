import Link from 'next/link'
import type { ReactNode } from 'react'
import { Mark } from './marks'
import { type NavItem, ShellNav } from './shell-nav'

export const shopNav: readonly NavItem[] = [
  { href: '/', label: 'Today' },
  { href: '/parts', label: 'Parts' },
  { href: '/asks', label: 'Asks' },
  { href: '/quotes', label: 'Quotes' },
  { href: '/jobs', label: 'Jobs' },
  { href: '/bench', label: 'Bench' },
  { href: '/stock', label: 'Stock' },
  { href: '/customers', label: 'Customers' },
  { href: '/shop', label: 'Shop' },
]

const menuId = 'shell-menu'

/** The frame every signed-in screen stands in. `items` are those the user's role may open. */
export function AppShell({
  items = shopNav,
  shopName,
  userName,
  roleLabel,
  signOut,
  children,
}: {
  items?: readonly NavItem[]
  shopName: string
  userName: string
  roleLabel?: string
  /** A form with a sign-out button. */
  signOut: ReactNode
  children: ReactNode
}) {
  const who = (
    <span>
      {userName}
      {roleLabel && `, ${roleLabel}`}
    </span>
  )
  return (
    <div className="shell">
      <a className="skip-link" href="#main">
        Go to the content
      </a>
      <header className="shell-bar">
        <div className="shell-bar-inner">
          <Link className="shell-mark" href="/" aria-label={`${shopName}: today`}>
            <ShopMark />
            <span className="shell-mark-name">{shopName}</span>
          </Link>
          <button type="button" className="button shell-menu-button" popoverTarget={menuId}>
            <Mark name="menu" />
            Menu
          </button>
          <nav className="shell-nav" id={menuId} popover="auto" aria-label="Shop">
            <ShellNav items={items} menuId={menuId} />
            <div className="shell-nav-foot">
              {who}
              {signOut}
            </div>
          </nav>
          <div className="shell-user">
            {who}
            {signOut}
          </div>
        </div>
      </header>
      <main className="shell-main" id="main" tabIndex={-1}>
        {children}
      </main>
    </div>
  )
}

/** For screens without sign-in: the customer's link, the sign-in itself. */
export function PlainShell({
  shopName,
  narrow,
  children,
}: {
  shopName: string
  narrow?: boolean
  children: ReactNode
}) {
  return (
    <div className="shell">
      <header className="shell-bar">
        <div className="shell-bar-inner">
          <span className="shell-mark">
            <ShopMark />
            <span className="shell-mark-name">{shopName}</span>
          </span>
        </div>
      </header>
      <main className={narrow ? 'shell-main shell-main-narrow' : 'shell-main'} id="main">
        {children}
      </main>
    </div>
  )
}

/** A bent tube on its layout lines. */
export function ShopMark() {
  return (
    <svg viewBox="0 0 32 32" fill="none" aria-hidden="true">
      <path d="M3 26.5h26M9.5 3v26" stroke="var(--scribe-strong)" strokeDasharray="7 2 1.5 2" />
      <path d="M3 22h9a10 10 0 0 0 8.7-5l7-12" stroke="var(--ink)" strokeWidth="7" />
      <path d="M2 22h10a10 10 0 0 0 8.7-5l7.6-13" stroke="var(--paper)" strokeWidth="4" />
      <path d="M3 22h9a10 10 0 0 0 8.7-5l7-12" stroke="var(--blue)" strokeWidth="1.25" />
    </svg>
  )
}
