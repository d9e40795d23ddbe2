'use client'

import { walkCentreline } from '@/lib/core/drawing/centreline'
import type { DrawingUnits } from '@/lib/core/drawing/length-text'
import { type DrawnPart, drawablePart, type TypedPart } from '@/lib/core/drawing/part'
import { type PartSheet, partSheet } from '@/lib/core/drawing/part-sheet'
import type { ViewName } from '@/lib/core/drawing/projection'
import { Inks, round } from './inks'
import { partWords, tubeWords } from './part-words'
import { ScaleBar } from './scale-bar'
import { TubePieces } from './tube-pieces'

const viewTitles: Record<ViewName, string> = {
  elevation: 'from the side',
  plan: 'from above',
  end: 'from the end',
  isometric: 'standing',
}

interface Selecting {
  selectedBend?: number | null
  onSelectBend?: (bend: number) => void
}

/** The part as a dimensioned drawing, of whatever has been typed so far. */
export function PartDrawing({
  part: typed,
  units = 'mm',
  views,
  selectedBend,
  onSelectBend,
}: { part: TypedPart; units?: DrawingUnits; views?: readonly ViewName[] } & Selecting) {
  const { part, missing } = drawablePart(typed)
  if (!part) return <p className="muted">Nothing to draw yet: {missing.join('; ')}.</p>
  const shared = { units, views }
  const wide = partSheet(part, {
    ...shared,
    widthPx: 960,
    mostHeightPx: 440,
    sizePx: 14,
    arrangement: 'wide',
  })
  const narrow = partSheet(part, {
    ...shared,
    widthPx: 380,
    mostHeightPx: 420,
    sizePx: 13,
    arrangement: 'narrow',
  })
  const words = partWords(part, units)
  const common = { part, units, words, selectedBend, onSelectBend }
  return (
    <figure className="drawing">
      <Sheet className="drawing-wide" sheet={wide} sizePx={14} {...common} />
      <Sheet className="drawing-narrow" sheet={narrow} sizePx={13} {...common} />
      <figcaption className="drawing-foot">
        <span>
          {tubeWords(part.tube, units)}; lengths in {units === 'in' ? 'inches' : 'mm'}, straights between
          tangent points, R to the centreline.
        </span>
        {missing.length > 0 && <span className="strong">Not drawn: {missing.join('; ')}.</span>}
      </figcaption>
    </figure>
  )
}

function Sheet({
  sheet,
  part,
  units,
  words,
  sizePx,
  className,
  selectedBend,
  onSelectBend,
}: {
  sheet: PartSheet
  part: DrawnPart
  units: DrawingUnits
  words: string
  sizePx: number
  className: string
} & Selecting) {
  const pieces = walkCentreline(part)
  const heightPx = sheet.heightPx + 40
  return (
    <svg
      className={className}
      viewBox={`-4 0 ${round(sheet.widthPx + 8)} ${round(heightPx)}`}
      role="img"
      aria-label={`Drawing: ${words}`}
    >
      {sheet.views.map((view) => (
        <g key={view.name}>
          <text
            className="ink-title"
            x={round(view.titlePx[0])}
            y={round(view.titlePx[1])}
            fontSize={sizePx * 0.86}
          >
            {viewTitles[view.name]}
          </text>
          <g transform={`translate(${round(view.originPx[0])} ${round(view.originPx[1])})`}>
            <TubePieces
              seen={view.pieces}
              pieces={pieces}
              selectedBend={selectedBend}
              onSelectBend={onSelectBend}
            />
            <Inks inks={view.inks} sizePx={sizePx} selectedBend={selectedBend} />
          </g>
        </g>
      ))}
      <ScaleBar scalePxPerMm={sheet.scalePxPerMm} x={1} y={heightPx - 6} sizePx={sizePx} units={units} />
    </svg>
  )
}
