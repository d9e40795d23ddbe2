import { endOffsetMm } from '@/lib/core/drawing/end-cut'
import type { EndCut } from '@/lib/core/drawing/part'
import { trimmed } from './bend-check'
import {
  line,
  movedToOrigin,
  type Primitive,
  polyline,
  type Template,
  type TemplatePoint,
  text,
} from './primitive'
import { type UnrolledPoint, unrolled, type WrappedTube } from './unrolled'

type SlantedCut = Exclude<EndCut, { kind: 'square' }>

/** `acrossMm`: how far the axes of the two tubes pass each other, toward the side the cut's own side points to. */
export type WrappedCut = SlantedCut & { readonly acrossMm?: number }

/** Which end of the tube: a wrap for the datum end runs round the other way. */
export type TubeEnd = 'datum' | 'far'

/** Room for the sides' names under the lowest point of the line. */
const HEIGHT_ABOVE_BASE_MM = 30
const TAB_MM = 12

/**
 * How far a point of the section stands out past the end of the centreline, along the tube: the cut of the drawing,
 * refused where it has no answer.
 * Source: line and plane, line and cylinder, as `endOffsetMm`. Valid: mitres below 90 degrees; a saddle whose every side meets the other tube.
 */
export function wrapHeightMm(cut: WrappedCut, [up, side]: readonly [number, number]): number {
  if (cut.kind === 'mitre') {
    if (!(Math.abs(cut.angleDeg) < 90))
      throw new RangeError(
        `a cut ${cut.angleDeg} degrees from square never leaves the tube: give less than 90`,
      )
    return endOffsetMm(cut, [up, side])
  }
  const { onDiameterMm, angleDeg = 90, rotationDeg = 0, acrossMm = 0 } = cut
  if (!(onDiameterMm > 0)) throw new RangeError('the tube it sits on needs a diameter above 0 mm')
  if (!(angleDeg > 0 && angleDeg < 180))
    throw new RangeError(`axes at ${angleDeg} degrees never meet: give more than 0 and less than 180`)
  const [cos, sin] = [Math.cos(rad(rotationDeg)), Math.sin(rad(rotationDeg))]
  const moved = [up - acrossMm * sin, side + acrossMm * cos] as const
  const reachMm = Math.abs(-moved[0] * sin + moved[1] * cos)
  // An end as wide as the other tube touches its edge exactly; a rounding error there is no miss.
  if (reachMm > (onDiameterMm / 2) * (1 + 1e-9))
    throw new RangeError(
      `the end reaches ${trimmed(reachMm)} mm to the side, past the side of the tube it sits on (radius ${trimmed(onDiameterMm / 2)} mm): it has no saddle`,
    )
  return endOffsetMm(cut, moved)
}

/**
 * The line of an end cut round the tube, unrolled: along the girth from the middle of the upper side, and out along the tube
 * from the end of the centreline. Printed side out, paper toward the tube's middle.
 * Source: unrolling of a plane or cylindrical section over flats and quarter circles. Exact at its points.
 */
export function endWrapCurve(tube: WrappedTube, cut: WrappedCut, end: TubeEnd): TemplatePoint[] {
  return roundTheTube(tube, end).map(({ girthMm, at }) => [girthMm, wrapHeightMm(cut, at)])
}

/** Seen with the end of the tube at the top of the paper, the far end runs from the upper side to the right, the datum end to the left. */
function roundTheTube(tube: WrappedTube, end: TubeEnd): UnrolledPoint[] {
  return unrolled(tube).map((point) =>
    end === 'far' ? point : { ...point, at: [point.at[0], -point.at[1]] },
  )
}

/** A paper wrap for one end of a tube, with the line of its cut and the sides of the tube by name. */
export function endWrapTemplate(wrap: {
  readonly tube: WrappedTube
  readonly cut: SlantedCut
  readonly end: TubeEnd
  /** A bent tube's sides are told by its first bend. */
  readonly isBent: boolean
  readonly name: string
  /** Nobody measured the corners: the paper says which radius it was drawn for. */
  readonly cornersAreTaken?: boolean
}): Template {
  const { tube, cut, end } = wrap
  const points = roundTheTube(tube, end)
  const curve = points.map(({ girthMm, at }): TemplatePoint => [girthMm, wrapHeightMm(cut, at)])
  const girthMm = curve.at(-1)?.[0] ?? 0
  const heights = curve.map(([, yMm]) => yMm)
  const [lowestMm, highestMm] = [Math.min(...heights), Math.max(...heights)]
  const baseMm = lowestMm - HEIGHT_ABOVE_BASE_MM
  const curveAtMm = (xMm: number) =>
    curve.reduce((best, point) => (Math.abs(point[0] - xMm) < Math.abs(best[0] - xMm) ? point : best))[1]
  const middles = points.filter(({ isMiddle }) => isMiddle).map((point) => point.girthMm)
  const folds = points.filter(({ isFold }) => isFold).map((point) => point.girthMm)
  const names = sideNames(end, wrap.isBent)
  const letterMm = Math.min(1.9, girthMm / 45)
  const lineTo = (layer: 'CENTRE' | 'MARK') => (xMm: number) =>
    line(layer, [xMm, baseMm], [xMm, curveAtMm(xMm)])
  const primitives: Primitive[] = [
    polyline('CUT', curve),
    line('CUT', [0, baseMm], [girthMm, baseMm]),
    line('CUT', [0, baseMm], [0, curve[0]?.[1] ?? 0]),
    line('CUT', [girthMm, baseMm + HEIGHT_ABOVE_BASE_MM - 2], [girthMm, curve.at(-1)?.[1] ?? 0]),
    polyline('CUT', [
      [girthMm, baseMm],
      [girthMm + TAB_MM, baseMm + 4],
      [girthMm + TAB_MM, baseMm + HEIGHT_ABOVE_BASE_MM - 6],
      [girthMm, baseMm + HEIGHT_ABOVE_BASE_MM - 2],
    ]),
    ...folds.map(lineTo('CENTRE')),
    ...middles.map(lineTo('MARK')),
    ...names.map((name, index) =>
      text([(middles[index] ?? 0) + letterMm + 1.2, baseMm + 1.5], name, {
        heightMm: letterMm,
        rotationDeg: 90,
      }),
    ),
    text([girthMm + 7, baseMm + 6], 'tab', { heightMm: 2.5, rotationDeg: 90 }),
  ]
  const upper = names[0] ?? ''
  return movedToOrigin({
    title: wrapTitle(wrap),
    primitives,
    notes: [
      ...cutNotes(cut),
      `Paper toward the middle of the tube, printed side out, straight edge square to the tube, the seam along the ${upper}.${tube.shape === 'round' ? '' : ' Fold at the chain lines over the edges.'} Tape the tab under.`,
      `Right and left are seen from the datum end with the ${upper} on top.`,
      `Girth ${trimmed(girthMm)} mm, highest point of the line ${trimmed(highestMm - lowestMm)} mm past the lowest. Scribe, saw outside the line, file to fit.`,
      ...(wrap.cornersAreTaken && tube.shape !== 'round'
        ? [
            `Corner radius taken as ${trimmed(tube.cornerRadiusMm ?? 0)} mm: measure one, and enter it with the tube if it differs.`,
          ]
        : []),
      'If the ends of the paper do not meet within 0.5 mm the print is not to scale.',
    ],
  })
}

function sideNames(end: TubeEnd, isBent: boolean): string[] {
  const [upper, lower] = isBent ? ['inside of bend 1', 'outside of bend 1'] : ['upper side', 'lower side']
  return end === 'far' ? [upper, 'right', lower, 'left'] : [upper, 'left', lower, 'right']
}

function wrapTitle({ tube, cut, name }: { tube: WrappedTube; cut: SlantedCut; name: string }): string {
  const size =
    tube.shape === 'round'
      ? `${trimmed(tube.widthMm)} mm round`
      : `${trimmed(tube.widthMm)} × ${trimmed(tube.heightMm)} mm`
  const turned = cut.rotationDeg ? `, turned ${trimmed(cut.rotationDeg)}°` : ''
  return cut.kind === 'mitre'
    ? `Mitre wrap, ${name}: ${trimmed(Math.abs(cut.angleDeg))}° from square on ${size}${turned}`
    : `Saddle wrap, ${name}: ${size} on ${trimmed(cut.onDiameterMm)} mm round at ${trimmed(cut.angleDeg ?? 90)}°${turned}`
}

function cutNotes(cut: SlantedCut): string[] {
  if (cut.kind === 'mitre')
    return [
      `${trimmed(Math.abs(cut.angleDeg))}° from square: a corner of ${trimmed(2 * Math.abs(cut.angleDeg))}° from two such ends.`,
    ]
  return [
    `Axes at ${trimmed(cut.angleDeg ?? 90)}°. The line is for the outside of this tube: a thick wall touches inside first, bevel it.`,
    'An end nearly as wide as the tube it sits on ends in thin points: cut proud and fit by hand.',
  ]
}

function rad(angleDeg: number): number {
  return (angleDeg * Math.PI) / 180
}
