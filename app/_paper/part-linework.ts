import type { Ink } from '@/lib/core/drawing/ink'
import type { DrawnPart } from '@/lib/core/drawing/part'
import { partSheet } from '@/lib/core/drawing/part-sheet'
import type { ViewName } from '@/lib/core/drawing/projection'
import type { Point } from '@/lib/core/drawing/vector'
import type { LengthUnit } from '@/lib/core/units'
import type { Linework } from './linework'

/** Sheet units in a printed millimetre: lettering and arrows are placed for this size on paper. */
const PX_PER_MM = 4.6
/** Lettering 2.6 mm high on its body. Source: ISO 3098-1 has 2.5 mm among its letter heights. */
const LETTER_PX = 2.9 * PX_PER_MM
const TITLES: Readonly<Record<ViewName, string>> = {
  elevation: 'from the side',
  plan: 'from above',
  end: 'from the end',
  isometric: 'standing',
}

type Stroke = Linework['strokes'][number]

/** The part's dimensioned views as lines for paper, in the millimetres they are printed at. */
export function partLinework(
  part: DrawnPart,
  room: { widthMm: number; heightMm: number; lengthUnit: LengthUnit },
): Linework {
  const sheet = partSheet(part, {
    widthPx: room.widthMm * PX_PER_MM,
    mostHeightPx: room.heightMm * PX_PER_MM,
    sizePx: LETTER_PX,
    units: room.lengthUnit,
    arrangement: 'wide',
  })
  const strokes: Stroke[] = []
  const labels: Linework['labels'][number][] = []
  for (const view of sheet.views) {
    const put = ([x, y]: Point): Point => [
      (x + view.originPx[0]) / PX_PER_MM,
      (y + view.originPx[1]) / PX_PER_MM,
    ]
    const stroke = (kind: Stroke['kind'], points: readonly Point[]) =>
      strokes.push({ kind, points: points.map(put) })
    for (const piece of view.pieces) {
      for (const cover of piece.covers) stroke('cover', cover)
      for (const line of piece.tangentLines) stroke('dimension', line)
      for (const line of piece.lines) stroke('edge', line)
      stroke('centre', piece.centreline)
    }
    for (const ink of view.inks) inkStrokes(ink, stroke)
    labels.push({
      xMm: view.titlePx[0] / PX_PER_MM,
      yMm: view.titlePx[1] / PX_PER_MM,
      text: TITLES[view.name],
      anchor: 'start',
    })
    for (const ink of view.inks) {
      if (ink.kind !== 'text' && ink.kind !== 'balloon') continue
      const [xMm, yMm] = put(ink.at)
      labels.push(
        ink.kind === 'text'
          ? {
              xMm,
              yMm: yMm + 1,
              text: ink.text,
              anchor: ink.anchor,
              turnDeg: (ink.angleRad * 180) / Math.PI,
              turnAtMm: [xMm, yMm],
            }
          : { xMm, yMm: yMm + 1, text: ink.text, anchor: 'middle' },
      )
    }
  }
  return {
    widthMm: sheet.widthPx / PX_PER_MM,
    heightMm: sheet.heightPx / PX_PER_MM,
    strokes,
    labels,
  }
}

function inkStrokes(ink: Ink, stroke: (kind: Stroke['kind'], points: readonly Point[]) => void): void {
  if (ink.kind === 'line') stroke(ink.line === 'construction' ? 'centre' : 'dimension', ink.points)
  if (ink.kind === 'tick') {
    const [dx, dy] = [Math.cos(ink.angleRad) * 5, Math.sin(ink.angleRad) * 5]
    stroke('edge', [
      [ink.at[0] - dx, ink.at[1] - dy],
      [ink.at[0] + dx, ink.at[1] + dy],
    ])
  }
  if (ink.kind === 'dot' || ink.kind === 'balloon') {
    const radius = ink.kind === 'dot' ? 1.5 : LETTER_PX * 0.78
    const round = Array.from({ length: 25 }, (_, step): Point => {
      const turn = (Math.PI * step) / 12
      return [ink.at[0] + radius * Math.cos(turn), ink.at[1] + radius * Math.sin(turn)]
    })
    if (ink.kind === 'balloon') stroke('cover', round)
    stroke('dimension', round)
  }
}
