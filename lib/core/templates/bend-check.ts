import {
  arc,
  line,
  movedToOrigin,
  type Primitive,
  pointOnCircle,
  polyline,
  type Template,
  type TemplatePoint,
  text,
} from './primitive'

/**
 * A template to lay a finished bend on: both edges of the tube in the bend plane at the final angle and radius.
 *   outside edge radius = R + h / 2, inside edge radius = R - h / 2, h the tube's height in the bend plane
 * With an angle tolerance, the two limits of the far leg are the nominal leg turned about the bend's centre.
 * Source: plane geometry. Valid: R > h / 2, angle above 0 and below 180 degrees. Exact.
 */
export function bendCheckTemplate(bend: {
  readonly finalAngleDeg: number
  readonly finalRadiusMm: number
  readonly tubeHeightMm: number
  readonly legMm?: number
  readonly angleToleranceDeg?: number
  readonly name?: string
}): Template {
  const { finalAngleDeg, finalRadiusMm, tubeHeightMm } = bend
  if (!(finalAngleDeg > 0 && finalAngleDeg < 180))
    throw new RangeError(
      `a bend of ${finalAngleDeg} degrees has no template: give more than 0 and less than 180`,
    )
  if (!(tubeHeightMm > 0)) throw new RangeError(`a tube ${tubeHeightMm} mm high has no edges to draw`)
  if (!(finalRadiusMm > tubeHeightMm / 2))
    throw new RangeError(
      `a centreline radius of ${finalRadiusMm} mm leaves no inside edge: it must be more than half the tube's ${tubeHeightMm} mm`,
    )
  const legMm = bend.legMm ?? Math.max(80, 2 * tubeHeightMm)
  const halfMm = tubeHeightMm / 2
  const centre: TemplatePoint = [0, finalRadiusMm]
  const endDeg = finalAngleDeg - 90
  const farLeg = (offsetMm: number, turnedDeg: number): readonly [TemplatePoint, TemplatePoint] => {
    const start = pointOnCircle(centre, finalRadiusMm + offsetMm, turnedDeg - 90)
    return [start, pointOnCircle(start, legMm, turnedDeg)]
  }
  const edge = (layer: 'CUT' | 'CENTRE', offsetMm: number): Primitive[] => [
    line(layer, [-legMm, -offsetMm], [0, -offsetMm]),
    arc(layer, { centre, radiusMm: finalRadiusMm + offsetMm, startDeg: -90, endDeg }),
    line(layer, ...farLeg(offsetMm, finalAngleDeg)),
  ]
  const acrossAt = (angleDeg: number): Primitive =>
    line(
      'MARK',
      pointOnCircle(centre, finalRadiusMm - halfMm - 4, angleDeg),
      pointOnCircle(centre, finalRadiusMm + halfMm + 4, angleDeg),
    )
  const limits = bend.angleToleranceDeg
    ? [-1, 1].map((side) =>
        line('LIMIT', ...farLeg(halfMm, finalAngleDeg + side * (bend.angleToleranceDeg ?? 0))),
      )
    : []
  const [outsideEnd, insideEnd] = [farLeg(halfMm, finalAngleDeg)[1], farLeg(-halfMm, finalAngleDeg)[1]]
  const plusMinus = bend.angleToleranceDeg ? ` ± ${trimmed(bend.angleToleranceDeg)}` : ''
  const letterMm = Math.min(3, halfMm / 4)
  const primitives: Primitive[] = [
    ...edge('CUT', halfMm),
    ...edge('CUT', -halfMm),
    ...edge('CENTRE', 0),
    polyline('CUT', [
      [-legMm, -halfMm],
      [-legMm, halfMm],
    ]),
    line('CUT', outsideEnd, insideEnd),
    acrossAt(-90),
    acrossAt(endDeg),
    acrossAt(endDeg / 2 - 45),
    ...limits,
    text([-legMm + 3, letterMm], `${bend.name ?? 'Bend'}  ${trimmed(finalAngleDeg)}°${plusMinus}`, {
      heightMm: letterMm,
    }),
    text([-legMm + 3, -2.2 * letterMm], `CLR ${trimmed(finalRadiusMm)} mm`, { heightMm: letterMm }),
    text([-legMm + 3, -halfMm - 6], `outside edge, radius ${trimmed(finalRadiusMm + halfMm)} mm`),
    text([-legMm + 3, halfMm + 2], `inside edge, radius ${trimmed(finalRadiusMm - halfMm)} mm`),
  ]
  return movedToOrigin({
    title: `Bend check, ${bend.name ?? 'bend'}: ${trimmed(finalAngleDeg)}°, centreline radius ${trimmed(finalRadiusMm)} mm`,
    primitives,
    notes: [
      'Lay the cold, empty tube on the sheet with the near leg between its lines.',
      'Cross lines: start, middle and end of the bend.',
      ...(limits.length > 0
        ? ['Dashed: the outside edge of the far leg at the two limits of the angle.']
        : []),
      'Cut along the inside edge for a gauge that sits in the bend, along the outside edge for one that sits over it.',
    ],
  })
}

/** A length or angle without idle zeros, at most two places. */
export function trimmed(value: number): string {
  return String(Number(value.toFixed(2)))
}
