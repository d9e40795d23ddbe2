import type { PartBend, Point } from '@/lib/core/geometry/centreline'

/** One short straight stretch of a centreline. */
export interface PathEdge {
  readonly from: Point
  readonly to: Point
  /** How much the tube has turned, all bends added, where the edge begins. */
  readonly turnedRad: number
  /** How much it turns along the edge; 0 on a straight. */
  readonly turnsRad: number
}

/** A place on the centreline with the way the tube runs and the way its next or present bend turns. */
export interface PathFrame {
  readonly at: Point
  readonly along: Point
  readonly toward: Point
}

export interface TubePath {
  readonly edges: readonly PathEdge[]
  /** The middle of each bend's arc. */
  readonly bendMiddles: readonly PathFrame[]
}

/** A bend as it stands now: bent to `bentDeg` at `radiusMm`, the rest of its arc still straight. */
export interface BendNow extends PartBend {
  readonly bentDeg: number
}

const stepRad = Math.PI / 18

const plus = (a: Point, b: Point, factor: number): Point => [
  a[0] + b[0] * factor,
  a[1] + b[1] * factor,
  a[2] + b[2] * factor,
]
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
const mix = (a: Point, aShare: number, b: Point, bShare: number): Point =>
  plus([a[0] * aShare, a[1] * aShare, a[2] * aShare], b, bShare)

/**
 * The centreline of a tube some of whose bends are not made yet, as straight edges no longer than 10 degrees of arc.
 * A bend's arc keeps its length: what is not bent lies straight, half before and half after its middle.
 * Frame as the drawing's: first straight along +x, first bend toward +y, rotation by the right-hand rule before each later bend.
 * Exact but for the chords: off by R (1 - cos 5 degrees) = 0.0038 R.
 */
export function tubePath(bends: readonly BendNow[], straightAfterMm: number): TubePath {
  const edges: PathEdge[] = []
  const bendMiddles: PathFrame[] = []
  let at: Point = [0, 0, 0]
  let along: Point = [1, 0, 0]
  let toward: Point = [0, 1, 0]
  let turnedRad = 0
  const run = (lengthMm: number, turnsRad: number) => {
    const to = plus(at, along, lengthMm)
    if (lengthMm > 0) edges.push({ from: at, to, turnedRad, turnsRad })
    at = to
  }
  const turn = (angleRad: number) => {
    const next = mix(along, Math.cos(angleRad), toward, Math.sin(angleRad))
    toward = mix(toward, Math.cos(angleRad), along, -Math.sin(angleRad))
    along = next
  }
  for (const bend of bends) {
    const rotationRad = (bend.rotationDeg * Math.PI) / 180
    toward = mix(toward, Math.cos(rotationRad), cross(along, toward), Math.sin(rotationRad))
    const angleRad = (bend.bentDeg * Math.PI) / 180
    const idleMm = (bend.centrelineRadiusMm * ((bend.angleDeg - bend.bentDeg) * Math.PI)) / 180
    run(bend.straightBeforeMm + idleMm / 2, 0)
    const stepCount = 2 * Math.ceil(angleRad / (2 * stepRad))
    const step = stepCount > 0 ? angleRad / stepCount : 0
    for (let index = 0; index < stepCount; index++) {
      if (index === stepCount / 2) bendMiddles.push({ at, along, toward })
      turn(step / 2)
      run(2 * bend.centrelineRadiusMm * Math.sin(step / 2), step)
      turnedRad += step
      turn(step / 2)
    }
    if (stepCount === 0) bendMiddles.push({ at, along, toward })
    run(idleMm / 2, 0)
  }
  run(straightAfterMm, 0)
  return { edges, bendMiddles }
}

/** A point seen from a frame: along it, toward its bend's centre, and sideways. */
export function inFrame(frame: PathFrame, point: Point): Point {
  const from = plus(point, frame.at, -1)
  const side = cross(frame.along, frame.toward)
  const dot = (a: Point) => a[0] * from[0] + a[1] * from[1] + a[2] * from[2]
  return [dot(frame.along), dot(frame.toward), dot(side)]
}
