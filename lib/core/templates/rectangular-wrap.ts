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

const CORNER_STEPS = 12

/**
 * The line of a plane mitre round a square or rectangular tube, unrolled: distance along the girth from the middle
 * of the short face, and height along the tube from the cut's middle, y = v tan(a), v across the tube in the mitre's plane.
 * The outside corners are quarter circles: v = -h/2 + ro (1 - cos b) over a girth of ro b.
 * Source: unrolling of a plane section. Valid: cut angle from square 0 to below 90 degrees, corner radius up to half the smaller side. Exact.
 */
export function rectangularMitreCurve(cut: RectangularMitre): TemplatePoint[] {
  const { widthMm, heightMm, cornerRadiusMm: ro = 0, cutAngleDeg } = cut
  if (!(widthMm > 0 && heightMm > 0)) throw new RangeError('a tube needs a width and a height above 0 mm')
  if (!(ro >= 0 && ro <= Math.min(widthMm, heightMm) / 2))
    throw new RangeError(`a corner radius of ${ro} mm does not fit: at most half the smaller side`)
  if (!(cutAngleDeg >= 0 && cutAngleDeg < 90))
    throw new RangeError(`a cut ${cutAngleDeg} degrees from square never leaves the tube: give 0 to below 90`)
  const slope = Math.tan((cutAngleDeg * Math.PI) / 180)
  const points: TemplatePoint[] = []
  let girthMm = 0
  const put = (alongGirthMm: number, acrossMm: number) => {
    girthMm += alongGirthMm
    points.push([girthMm, acrossMm * slope])
  }
  const corner = (acrossAtMm: (turn: number) => number) => {
    for (let step = 1; ro > 0 && step <= CORNER_STEPS; step++) {
      put((ro * Math.PI) / 2 / CORNER_STEPS, acrossAtMm(((Math.PI / 2) * step) / CORNER_STEPS))
    }
  }
  const halfMm = heightMm / 2
  put(0, -halfMm)
  put(widthMm / 2 - ro, -halfMm)
  corner((turn) => -halfMm + ro * (1 - Math.cos(turn)))
  put(heightMm - 2 * ro, halfMm - ro)
  corner((turn) => halfMm - ro + ro * Math.sin(turn))
  put(widthMm - 2 * ro, halfMm)
  corner((turn) => halfMm - ro * (1 - Math.cos(turn)))
  put(heightMm - 2 * ro, -halfMm + ro)
  corner((turn) => -halfMm + ro - ro * Math.sin(turn))
  put(widthMm / 2 - ro, -halfMm)
  return points
}

export interface RectangularMitre {
  readonly widthMm: number
  readonly heightMm: number
  readonly cornerRadiusMm?: number
  readonly cutAngleDeg: number
}

/** A paper wrap with the mitre's line on all four faces, joined at the middle of the short face. */
export function rectangularMitreTemplate(cut: RectangularMitre & { readonly name?: string }): Template {
  const curve = rectangularMitreCurve(cut)
  const girthMm = curve.at(-1)?.[0] ?? 0
  const lowestMm = Math.min(...curve.map(([, yMm]) => yMm))
  const highestMm = Math.max(...curve.map(([, yMm]) => yMm))
  const baseMm = lowestMm - 25
  const { widthMm, heightMm, cornerRadiusMm: ro = 0 } = cut
  const cornerMm = (ro * Math.PI) / 2
  // Fold lines stand at the middle of each corner's arc, where the edge of a sharp tube would be.
  const folds = [widthMm / 2 - ro + cornerMm / 2]
  folds.push((folds[0] ?? 0) + heightMm - 2 * ro + cornerMm)
  folds.push((folds[1] ?? 0) + widthMm - 2 * ro + cornerMm)
  folds.push((folds[2] ?? 0) + heightMm - 2 * ro + cornerMm)
  const middles = [
    [girthMm * 0, 'short face'],
    [((folds[0] ?? 0) + (folds[1] ?? 0)) / 2, 'side'],
    [girthMm / 2, 'long face'],
    [((folds[2] ?? 0) + (folds[3] ?? 0)) / 2, 'side'],
  ] as const
  const primitives: Primitive[] = [
    polyline('CUT', curve),
    line('CUT', [0, baseMm], [girthMm, baseMm]),
    line('CUT', [0, baseMm], [0, lowestMm]),
    polyline('CUT', [
      [girthMm, baseMm],
      [girthMm + 12, baseMm + 4],
      [girthMm + 12, baseMm + 19],
      [girthMm, baseMm + 23],
    ]),
    ...folds.map((xMm) => line('CENTRE', [xMm, baseMm], [xMm, highestMm])),
    ...middles.map(([xMm, name]) =>
      text([xMm + 2, baseMm + 4], name, { heightMm: Math.min(3, girthMm / 60) }),
    ),
    text([girthMm + 7, baseMm + 6], 'tab', { heightMm: 2.5, rotationDeg: 90 }),
  ]
  return movedToOrigin({
    title: `Mitre marks, ${cut.name ?? 'end'}: ${trimmed(cut.cutAngleDeg)}° from square on ${trimmed(widthMm)} × ${trimmed(heightMm)} mm`,
    primitives,
    notes: [
      'Fold at the chain lines over the tube’s edges, straight edge square to the tube, tape the tab under, scribe all four faces.',
      `Long face stands ${trimmed(highestMm - lowestMm)} mm past the short face. Saw outside the line.`,
      'If the ends of the paper do not meet within 0.5 mm the print is not to scale.',
    ],
  })
}
