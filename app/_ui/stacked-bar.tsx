import { type ReactNode, useId } from 'react'

export interface Share {
  key: string
  label: string
  value: number
  text: ReactNode
}

const fills = ['solid', 'slant', 'dots', 'back', 'grid', 'open'] as const

/** Where it goes, as one bar; each share has its own hatching, so that it reads in black ink too. */
export function StackedBar({ label, shares }: { label: string; shares: readonly Share[] }) {
  const id = useId()
  const total = shares.reduce((sum, share) => sum + Math.max(share.value, 0), 0)
  const starts = shares.map((_, index) =>
    shares.slice(0, index).reduce((sum, share) => sum + Math.max(share.value, 0), 0),
  )
  const percent = (value: number) => (total > 0 ? (Math.max(value, 0) / total) * 100 : 0)
  const fill = (index: number) => `url(#${id}-${fills[index % fills.length]})`
  return (
    <figure className="chart" aria-label={label}>
      <svg className="stacked" height="34" aria-hidden="true">
        <Hatches id={id} />
        {shares.map((share, index) => (
          <rect
            key={share.key}
            x={`${percent(starts[index] ?? 0)}%`}
            y="1"
            width={`${percent(share.value)}%`}
            height="32"
            fill={fill(index)}
          />
        ))}
      </svg>
      <ul className="chart-key">
        {shares.map((share, index) => (
          <li key={share.key}>
            <svg className="stacked" viewBox="0 0 16 16" aria-hidden="true">
              <rect x="1" y="1" width="14" height="14" fill={fill(index)} />
            </svg>
            <span>{share.label}</span>
            <span className="money">{share.text}</span>
            <span className="muted small nowrap">{Math.round(percent(share.value))}%</span>
          </li>
        ))}
      </ul>
    </figure>
  )
}

function Hatches({ id }: { id: string }) {
  const size = { width: 7, height: 7, patternUnits: 'userSpaceOnUse' } as const
  const line = { stroke: 'var(--ink)', strokeWidth: 1.25, fill: 'none' } as const
  const ground = <rect width="7" height="7" fill="var(--steel)" stroke="none" />
  return (
    <defs>
      <pattern id={`${id}-solid`} {...size}>
        <rect width="7" height="7" fill="var(--blue)" stroke="none" />
      </pattern>
      <pattern id={`${id}-slant`} {...size}>
        {ground}
        <path d="M-1 8 8 -1M-1 1 1 -1M6 8 8 6" {...line} />
      </pattern>
      <pattern id={`${id}-dots`} {...size}>
        <rect width="7" height="7" fill="var(--paper)" stroke="none" />
        <circle cx="3.5" cy="3.5" r="1.3" fill="var(--ink)" />
      </pattern>
      <pattern id={`${id}-back`} {...size}>
        <rect width="7" height="7" fill="var(--blue-wash)" stroke="none" />
        <path d="M-1 -1 8 8M-1 6 1 8M6 -1 8 1" {...line} />
      </pattern>
      <pattern id={`${id}-grid`} {...size}>
        {ground}
        <path d="M0 3.5h7M3.5 0v7" {...line} />
      </pattern>
      <pattern id={`${id}-open`} {...size}>
        <rect width="7" height="7" fill="var(--steel)" stroke="none" />
      </pattern>
    </defs>
  )
}
