import Link from 'next/link'
import { classNames } from './class-names'

export interface Bar {
  key: string
  label: string
  /** Any unit, the same for all rows. `low` and `high` are the ends of the whisker. */
  expected: number
  low?: number
  high?: number
  /** The number as text. */
  text: string
  note?: string
  href?: string
  chosen?: boolean
}

/** Bars with whiskers on one scale from nought, one row for each way. */
export function Bars({
  label,
  bars,
  mark,
}: {
  label: string
  bars: readonly Bar[]
  /** One line over all bars: a price to beat. */
  mark?: { value: number; text: string }
}) {
  const most = Math.max(...bars.map((bar) => Math.max(bar.expected, bar.high ?? 0)), mark?.value ?? 0)
  const along = (value: number) => `${most > 0 ? (Math.max(value, 0) / most) * 98 : 0}%`
  return (
    <figure className="chart" aria-label={label}>
      <div className="stack stack-tight">
        {bars.map((bar) => (
          <div key={bar.key} className={classNames('bar-row', bar.chosen && 'bar-chosen')}>
            <span className="bar-label">
              {bar.href ? <Link href={bar.href}>{bar.label}</Link> : bar.label}
              {bar.chosen && <span className="muted small"> chosen</span>}
            </span>
            <svg height="26" aria-hidden="true">
              <rect className="bar-fill" x="0" y="5" width={along(bar.expected)} height="16" />
              {bar.low !== undefined && bar.high !== undefined && (
                <>
                  <line className="bar-whisker" x1={along(bar.low)} x2={along(bar.high)} y1="13" y2="13" />
                  <line className="bar-whisker" x1={along(bar.low)} x2={along(bar.low)} y1="8" y2="18" />
                  <line className="bar-whisker" x1={along(bar.high)} x2={along(bar.high)} y1="8" y2="18" />
                </>
              )}
              {mark && (
                <line className="bar-mark" x1={along(mark.value)} x2={along(mark.value)} y1="0" y2="26" />
              )}
            </svg>
            <span className="bar-text">
              {bar.text}
              {bar.note && <span className="muted small"> {bar.note}</span>}
            </span>
          </div>
        ))}
      </div>
      {mark && <figcaption className="small muted">Dashed line: {mark.text}</figcaption>}
    </figure>
  )
}
