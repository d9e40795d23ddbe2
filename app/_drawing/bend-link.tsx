'use client'

import type { ReactNode, SyntheticEvent } from 'react'

function light(host: Element, bend: string | null): void {
  for (const lit of host.querySelectorAll('[data-lit]')) lit.removeAttribute('data-lit')
  if (bend === null) return
  for (const part of host.querySelectorAll('[data-bend]')) {
    if (part.getAttribute('data-bend') === bend) part.setAttribute('data-lit', '')
  }
}

/** Whatever inside carries the same `data-bend` lights together: a row of the table and its bend in the drawing. */
export function BendLink({ children, className }: { children: ReactNode; className?: string }) {
  const show = (event: SyntheticEvent<HTMLDivElement>) => {
    const on = event.target instanceof Element ? event.target.closest('[data-bend]') : null
    light(event.currentTarget, on?.getAttribute('data-bend') ?? null)
  }
  return (
    <div className={className} onPointerOver={show} onFocus={show}>
      {children}
    </div>
  )
}
