import Link from 'next/link'
import type { ReactNode } from 'react'

export interface TrailStep {
  label: string
  href?: string
}

/** Head of a screen: the trail of records it came from, what it is, what can be done next. */
export function PageHead({
  title,
  kind,
  trail,
  actions,
  children,
}: {
  title: string
  /** What sort of record, and its number: "Quote Q-0042, revision 2". */
  kind?: ReactNode
  trail?: readonly TrailStep[]
  actions?: ReactNode
  /** One line under the title: state, due date, who. */
  children?: ReactNode
}) {
  return (
    <header className="page-head">
      {trail && trail.length > 0 && (
        <nav aria-label="Related records">
          <ol className="trail">
            {trail.map((step) => (
              <li key={`${step.href ?? ''}${step.label}`}>
                {step.href ? <Link href={step.href}>{step.label}</Link> : <span>{step.label}</span>}
              </li>
            ))}
          </ol>
        </nav>
      )}
      <div className="page-head-line">
        <div className="page-head-title">
          {kind && <span className="page-head-kind">{kind}</span>}
          <h1>{title}</h1>
        </div>
        {actions && <div className="row">{actions}</div>}
      </div>
      {children && <div className="muted">{children}</div>}
    </header>
  )
}
