import type { ReactNode } from 'react'
import { classNames } from './class-names'
import { Mark, type MarkName } from './marks'

const marks = { info: 'info', caution: 'caution', stop: 'stop' } as const satisfies Record<string, MarkName>

/** info: good to know. caution: the title names the hazard, the children the act. stop: hurts or scraps a part. */
export function Notice({
  kind = 'info',
  title,
  children,
  actions,
  alert = false,
}: {
  kind?: keyof typeof marks
  title: ReactNode
  children?: ReactNode
  actions?: ReactNode
  /** Read out at once: for what has just happened, not for what stands on the page. */
  alert?: boolean
}) {
  return (
    <div className={classNames('notice', `notice-${kind}`)} role={alert ? 'alert' : undefined}>
      <Mark name={marks[kind]} size={20} />
      <div className="notice-body">
        <div className="notice-title">{title}</div>
        {children && <div>{children}</div>}
        {actions && <div className="row">{actions}</div>}
      </div>
    </div>
  )
}
