import { classNames } from './class-names'

export interface RunPoint {
  key: string
  /** Under the point: the try's number. */
  label: string
  value: number
  /** The value with its unit, read out and shown on hover. */
  text: string
}

const heightPx = 190
const topPx = 12
const plotPx = 146

/** Values in the order they were measured, against the band they must stay in. */
export function RunChart({
  label,
  points,
  band,
  nominal,
  axisText,
}: {
  label: string
  points: readonly RunPoint[]
  band?: { low: number; high: number; lowText: string; highText: string }
  nominal?: { value: number; text: string }
  axisText?: string
}) {
  const values = [...points.map((point) => point.value), band?.low, band?.high, nominal?.value].filter(
    (value) => value !== undefined,
  )
  const low = Math.min(...values)
  const high = Math.max(...values)
  const margin = (high - low || 1) * 0.12
  const y = (value: number) => topPx + ((high + margin - value) / (high - low + 2 * margin)) * plotPx
  const x = (index: number) => `${8 + ((index + 0.5) / points.length) * 80}%`
  const outside = (value: number) => band !== undefined && (value < band.low || value > band.high)
  return (
    <figure className="chart">
      <svg
        height={heightPx}
        role="img"
        aria-label={`${label}: ${points.map((point) => point.text).join(', ')}`}
      >
        {band && (
          <>
            <rect
              className="run-band"
              x="8%"
              width="80%"
              y={y(band.high)}
              height={y(band.low) - y(band.high)}
            />
            {[band.high, band.low].map((limit) => (
              <line key={limit} className="run-limit" x1="8%" x2="88%" y1={y(limit)} y2={y(limit)} />
            ))}
            <text x="89%" y={y(band.high) + 4}>
              {band.highText}
            </text>
            <text x="89%" y={y(band.low) + 4}>
              {band.lowText}
            </text>
          </>
        )}
        {nominal && (
          <>
            <line className="axis" x1="8%" x2="88%" y1={y(nominal.value)} y2={y(nominal.value)} />
            <text x="89%" y={y(nominal.value) + 4}>
              {nominal.text}
            </text>
          </>
        )}
        {points.slice(1).map((point, index) => (
          <line
            key={point.key}
            className="run-path"
            x1={x(index)}
            y1={y(points[index]?.value ?? point.value)}
            x2={x(index + 1)}
            y2={y(point.value)}
          />
        ))}
        {points.map((point, index) => (
          <g key={point.key}>
            <title>{point.text}</title>
            <circle
              className={classNames('run-point', outside(point.value) && 'run-point-out')}
              cx={x(index)}
              cy={y(point.value)}
              r={outside(point.value) ? 6 : 4.5}
            />
            <text x={x(index)} y={heightPx - 14} textAnchor="middle">
              {point.label}
            </text>
          </g>
        ))}
      </svg>
      {axisText && <figcaption className="small muted">{axisText}</figcaption>}
    </figure>
  )
}
