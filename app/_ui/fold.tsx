'use client'

import { type ReactNode, useEffect, useState } from 'react'

/** A titled part of a long screen that folds to one line, which says what is in it. */
export function FoldSection({
  title,
  id,
  summary,
  aside,
  open = false,
  children,
}: {
  title: string
  id: string
  /** What is in it, read while it is folded and while it is not. */
  summary?: ReactNode
  aside?: ReactNode
  /** How it begins; from then on it is the reader's. */
  open?: boolean
  children: ReactNode
}) {
  const [isOpen, setOpen] = useState(open)
  return (
    <details
      className="section fold"
      id={id}
      open={isOpen}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <h2>{title}</h2>
        {summary && <span className="fold-summary">{summary}</span>}
      </summary>
      <div className="fold-body stack">
        {children}
        {aside && <p className="fold-aside">{aside}</p>}
      </div>
    </details>
  )
}

/** Unfolds everything around the place that an address names and brings it into view. */
function reveal(hash: string): void {
  const target = hash.length > 1 ? document.getElementById(decodeURIComponent(hash.slice(1))) : null
  if (!target) return
  for (let at: Element | null = target; at; at = at.parentElement)
    if (at instanceof HTMLDetailsElement) at.open = true
  requestAnimationFrame(() => target.scrollIntoView({ block: 'start' }))
}

/** Once on a screen with folded parts: a link into one of them leads there, whoever follows it and however. */
export function RevealTarget() {
  useEffect(() => {
    const onHash = () => reveal(window.location.hash)
    const onClick = (event: MouseEvent) => {
      const link = event.target instanceof Element ? event.target.closest('a') : null
      if (link && link.hash !== '' && link.pathname === window.location.pathname) reveal(link.hash)
    }
    onHash()
    window.addEventListener('hashchange', onHash)
    document.addEventListener('click', onClick)
    return () => {
      window.removeEventListener('hashchange', onHash)
      document.removeEventListener('click', onClick)
    }
  }, [])
  return null
}
