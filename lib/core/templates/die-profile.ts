import { trimmed } from './bend-check'
import {
  arc,
  line,
  movedToOrigin,
  type Primitive,
  pointOnCircle,
  type Template,
  type TemplatePoint,
  text,
} from './primitive'

/**
 * How far the middle of an arc stands above a chord: s = r - sqrt(r^2 - (chord / 2)^2).
 * Source: plane geometry (sagitta of a circular segment). Valid: chord no longer than the diameter. Exact.
 */
export function sagittaMm(circle: { radiusMm: number; chordMm: number }): number {
  const halfMm = circle.chordMm / 2
  if (!(circle.chordMm >= 0 && halfMm <= circle.radiusMm))
    throw new RangeError(
      `a chord of ${circle.chordMm} mm does not fit a circle of radius ${circle.radiusMm} mm`,
    )
  return circle.radiusMm - Math.sqrt(circle.radiusMm ** 2 - halfMm ** 2)
}

/**
 * The side view of the die to saw. Its surface radius already has the springback taken off:
 *   die surface radius = loaded centreline radius - h / 2
 * The arc goes past each end of contact by a run-out, so that the tube never rides on a corner.
 * Source: plane geometry; the run-out of 5 degrees is common practice, no source.
 * Valid: wrapped angle above 0 and below 180 degrees; the half arc with its run-out is held to a quarter circle.
 */
export function dieProfileTemplate(die: {
  readonly surfaceRadiusMm: number
  readonly wrappedAngleDeg: number
  readonly runOutDeg?: number
  readonly blockDepthMm?: number
  readonly grooveWidthMm?: number
  readonly name?: string
}): Template {
  const { surfaceRadiusMm, wrappedAngleDeg } = die
  if (!(surfaceRadiusMm > 0))
    throw new RangeError(`a die with a surface radius of ${surfaceRadiusMm} mm cannot be sawn`)
  if (!(wrappedAngleDeg > 0 && wrappedAngleDeg < 180))
    throw new RangeError(
      `a wrapped angle of ${wrappedAngleDeg} degrees does not fit a press die: more than 0, less than 180`,
    )
  const halfArcDeg = Math.min(wrappedAngleDeg / 2 + (die.runOutDeg ?? 5), 90)
  const blockDepthMm = die.blockDepthMm ?? 50
  const centre: TemplatePoint = [0, 0]
  const [right, left] = [90 - halfArcDeg, 90 + halfArcDeg].map((deg) =>
    pointOnCircle(centre, surfaceRadiusMm, deg),
  ) as [TemplatePoint, TemplatePoint]
  const baseMm = right[1] - blockDepthMm
  const tick = (angleDeg: number): Primitive =>
    line(
      'MARK',
      pointOnCircle(centre, surfaceRadiusMm - 12, angleDeg),
      pointOnCircle(centre, surfaceRadiusMm + 4, angleDeg),
    )
  const chordMm = Math.min(100, 2 * Math.floor(right[0]))
  const name = die.name ?? 'Die'
  const primitives: Primitive[] = [
    arc('CUT', { centre, radiusMm: surfaceRadiusMm, startDeg: 90 - halfArcDeg, endDeg: 90 + halfArcDeg }),
    line('CUT', right, [right[0], baseMm]),
    line('CUT', [right[0], baseMm], [left[0], baseMm]),
    line('CUT', [left[0], baseMm], left),
    line('CENTRE', [0, baseMm - 4], [0, surfaceRadiusMm + 6]),
    tick(90 - wrappedAngleDeg / 2),
    tick(90 + wrappedAngleDeg / 2),
    text([3, baseMm + 10], `${name}  surface radius ${trimmed(surfaceRadiusMm)} mm`, { heightMm: 3.5 }),
    text([3, baseMm + 4], `contact ${trimmed(wrappedAngleDeg)}° between the ticks`),
  ]
  return movedToOrigin({
    title: `Die profile, ${name}: surface radius ${trimmed(surfaceRadiusMm)} mm`,
    primitives,
    notes: [
      'Springback is already taken off this radius: it is tighter than the part.',
      'Saw outside the line and dress to it; break the edges so that they do not mark the tube.',
      `Check: a straight edge ${trimmed(chordMm)} mm long across the arc leaves ${trimmed(sagittaMm({ radiusMm: surfaceRadiusMm, chordMm }))} mm at its middle.`,
      ...(die.grooveWidthMm
        ? [`Groove ${trimmed(die.grooveWidthMm)} mm wide across the face, square to this side.`]
        : []),
      'The centre line goes under the ram axis: a load beside it can throw the die.',
    ],
  })
}
