import { type Point, radians } from './vector'

export interface PressSetUp {
  heightMm: number
  spanMm: number
  noseRadiusMm: number
  dieSurfaceRadiusMm: number
  /** The arc wrapped on the die at full travel, both sides together. */
  wrappedAngleDeg: number
  strapThicknessMm?: number
}

/** The tube on the press at full travel: x along the span from its middle, y up from the straight tube's centreline. */
export interface PressShape {
  dieCentre: Point
  noses: readonly [Point, Point]
  /** Centreline at full travel, end to end. */
  centreline: readonly Point[]
  travelMm: number
  /** Free length from the end of contact to the support. */
  freeLengthMm: number
  halfAngleRad: number
  overhangMm: number
}

/**
 * Where everything stands when the ram is down, the arms drawn straight.
 *   s = (L/2 - (R + d) sin phi) / cos phi      travel = R (1 - cos phi) + s sin phi + d (1 - cos phi)
 * with R the centreline radius on the die, d = h/2 + strap + nose radius, phi half the wrapped angle.
 * Source: plane geometry of a circle and two tangents. Valid: s > 0; null otherwise: the span is too short for the angle.
 */
export function pressShape(setUp: PressSetUp): PressShape | null {
  const { heightMm, spanMm, noseRadiusMm, dieSurfaceRadiusMm, wrappedAngleDeg } = setUp
  const phi = radians(wrappedAngleDeg / 2)
  const radiusMm = dieSurfaceRadiusMm + heightMm / 2
  const offsetMm = heightMm / 2 + (setUp.strapThicknessMm ?? 0) + noseRadiusMm
  const freeLengthMm = (spanMm / 2 - (radiusMm + offsetMm) * Math.sin(phi)) / Math.cos(phi)
  const numbers = [heightMm, spanMm, noseRadiusMm, dieSurfaceRadiusMm, wrappedAngleDeg]
  if (!numbers.every(Number.isFinite) || wrappedAngleDeg <= 0 || wrappedAngleDeg >= 180 || freeLengthMm <= 0)
    return null
  const travelMm = (radiusMm + offsetMm) * (1 - Math.cos(phi)) + freeLengthMm * Math.sin(phi)
  const dieCentre: Point = [0, radiusMm - travelMm]
  const overhangMm = Math.max(heightMm * 1.2, spanMm * 0.06)
  const onArc = (angle: number): Point => [
    radiusMm * Math.sin(angle),
    dieCentre[1] - radiusMm * Math.cos(angle),
  ]
  const arc = Array.from({ length: 33 }, (_, step) => onArc(phi * (step / 16 - 1)))
  const contact = onArc(phi)
  const arm = freeLengthMm + overhangMm
  const tip: Point = [contact[0] + Math.cos(phi) * arm, contact[1] + Math.sin(phi) * arm]
  return {
    dieCentre,
    noses: [
      [-spanMm / 2, -offsetMm],
      [spanMm / 2, -offsetMm],
    ],
    centreline: [[-tip[0], tip[1]], ...arc, tip],
    travelMm,
    freeLengthMm,
    halfAngleRad: phi,
    overhangMm,
  }
}

/** A curve moved sideways by a distance, to its left as it runs. */
export function offsetCurve(points: readonly Point[], distanceMm: number): Point[] {
  return points.map((point, index) => {
    const before = points[Math.max(index - 1, 0)] ?? point
    const after = points[Math.min(index + 1, points.length - 1)] ?? point
    const long = Math.hypot(after[0] - before[0], after[1] - before[1]) || 1
    return [
      point[0] - ((after[1] - before[1]) / long) * distanceMm,
      point[1] + ((after[0] - before[0]) / long) * distanceMm,
    ]
  })
}
