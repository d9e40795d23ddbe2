import type { ReactNode } from 'react'

/** Nothing here yet: says why and offers the act that fills it. */
export function Empty({
  title,
  children,
  action,
}: {
  title: string
  children?: ReactNode
  action?: ReactNode
}) {
  return (
    <div className="empty">
      <div className="strong">{title}</div>
      {children && <div className="muted prose">{children}</div>}
      {action}
    </div>
  )
}
