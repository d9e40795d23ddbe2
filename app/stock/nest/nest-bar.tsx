import { formatLength } from '@/lib/core/format'
import type { NestInput, PlannedBar } from '@/lib/core/stock/nest-plan'
import type { LengthUnit } from '@/lib/core/units'

type Span = { key: string; fromMm: number; toMm: number; kind: 'crop' | 'piece' | 'left'; label: string }

/** What each stretch of a bar becomes, from its first end: crop, pieces a kerf apart, what is left. */
export function barSpans(bar: PlannedBar, input: Pick<NestInput, 'kerfMm' | 'endTrimMm'>): Span[] {
  const spans: Span[] = []
  let atMm = input.endTrimMm
  if (atMm > 0) spans.push({ key: 'crop', fromMm: 0, toMm: atMm, kind: 'crop', label: '' })
  for (const { pieceKey, lengthMm, pieceCount } of bar.cuts) {
    for (let number = 1; number <= pieceCount; number += 1) {
      const toMm = atMm + lengthMm
      spans.push({ key: `${pieceKey}${number}`, fromMm: atMm, toMm, kind: 'piece', label: pieceKey })
      atMm = toMm + input.kerfMm
    }
  }
  if (bar.leftoverMm > 0.05) {
    const fromMm = bar.lengthMm - bar.leftoverMm
    spans.push({ key: 'left', fromMm, toMm: bar.lengthMm, kind: 'left', label: '' })
  }
  return spans
}

/** One bar to scale, the longest of the plan over the whole width. */
export function NestBar({
  bar,
  longestMm,
  input,
  lengthUnit,
}: {
  bar: PlannedBar
  longestMm: number
  input: Pick<NestInput, 'kerfMm' | 'endTrimMm'>
  lengthUnit: LengthUnit
}) {
  const share = (mm: number) => `${Number(((mm / longestMm) * 100).toFixed(3))}%`
  const words = bar.cuts.map((cut) => `${cut.pieceCount} times ${cut.pieceKey}`).join(', ')
  return (
    <svg
      className="nest-bar"
      width="100%"
      height="34"
      role="img"
      aria-label={`Bar of ${formatLength(bar.lengthMm, lengthUnit)}: ${words}, ${formatLength(bar.leftoverMm, lengthUnit)} left`}
    >
      <rect className="nest-outline" x="0" y="4" width={share(bar.lengthMm)} height="26" />
      {barSpans(bar, input).map((span) => (
        <g key={span.key}>
          <rect
            className={`nest-${bar.leftover === 'back-to-rack' && span.kind === 'left' ? 'kept' : span.kind}`}
            x={share(span.fromMm)}
            y="4"
            width={share(span.toMm - span.fromMm)}
            height="26"
          />
          {span.kind === 'piece' && span.toMm - span.fromMm > longestMm * 0.05 && (
            <text x={share((span.fromMm + span.toMm) / 2)} y="22" textAnchor="middle">
              {span.label}
            </text>
          )}
        </g>
      ))}
    </svg>
  )
}
