import { type DrawingUnits, lengthText, roundLengthMm } from '@/lib/core/drawing/length-text'
import { round } from './inks'

/** A short steel rule drawn at the drawing's scale. */
export function ScaleBar({
  scalePxPerMm,
  x,
  y,
  sizePx,
  units,
}: {
  scalePxPerMm: number
  x: number
  y: number
  sizePx: number
  units: DrawingUnits
}) {
  const longMm = roundLengthMm(110 / scalePxPerMm, units)
  const longPx = longMm * scalePxPerMm
  const ticks = Array.from({ length: 11 }, (_, tick) => tick)
  return (
    <g>
      <path
        className="ink-line"
        d={`M${round(x)} ${round(y)}h${round(longPx)}${ticks
          .map(
            (tick) =>
              `M${round(x + (longPx * tick) / 10)} ${round(y)}v${tick % 10 === 0 ? -10 : tick === 5 ? -7 : -4}`,
          )
          .join('')}`}
      />
      <text className="ink-text" x={round(x + longPx + 8)} y={round(y - 4)} fontSize={sizePx * 0.9}>
        {lengthText(longMm, units)} {units}
      </text>
    </g>
  )
}
