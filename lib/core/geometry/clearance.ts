import type { Point } from '@/lib/core/geometry/centreline'
import type { PathEdge, TubePath } from '@/lib/core/geometry/tube-path'

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const within = (value: number): number => Math.min(Math.max(value, 0), 1)

/**
 * Shortest distance between two straight stretches.
 * Source: C. Ericson, Real-Time Collision Detection (2005), 5.1.9. Exact.
 */
export function edgeDistanceMm(a: readonly [Point, Point], b: readonly [Point, Point]): number {
  const d1 = minus(a[1], a[0])
  const d2 = minus(b[1], b[0])
  const r = minus(a[0], b[0])
  const aa = dot(d1, d1)
  const bb = dot(d2, d2)
  const ab = dot(d1, d2)
  const ar = dot(d1, r)
  const br = dot(d2, r)
  const gapMm2 = (s: number, t: number) =>
    (r[0] + d1[0] * s - d2[0] * t) ** 2 +
    (r[1] + d1[1] * s - d2[1] * t) ** 2 +
    (r[2] + d1[2] * s - d2[2] * t) ** 2
  // The least lies at an end of one stretch, or where both run free; near parallel the ends bound it.
  const onFirst = (t: number) => (aa > 0 ? within((ab * t - ar) / aa) : 0)
  const onSecond = (s: number) => (bb > 0 ? within((ab * s + br) / bb) : 0)
  const flat = aa * bb - ab * ab
  const free = flat > 0 ? within((ab * br - ar * bb) / flat) : 0
  return Math.sqrt(
    Math.min(
      gapMm2(0, onSecond(0)),
      gapMm2(1, onSecond(1)),
      gapMm2(onFirst(0), 0),
      gapMm2(onFirst(1), 1),
      gapMm2(free, onSecond(free)),
    ),
  )
}

/** No two points of the stretches lie nearer: from middle to middle less half of either. Cheap, so that few pairs need the rest. */
function leastApartMm(a: PathEdge, b: PathEdge): number {
  const middles = Math.hypot(
    a.from[0] + a.to[0] - b.from[0] - b.to[0],
    a.from[1] + a.to[1] - b.from[1] - b.to[1],
    a.from[2] + a.to[2] - b.from[2] - b.to[2],
  )
  return (middles - lengthMm(a) - lengthMm(b)) / 2
}

function lengthMm({ from, to }: PathEdge): number {
  return Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2])
}

/**
 * The least distance between the centrelines of two places of one tube, or null where the tube never turns back.
 * Only places with half a turn or more between them are asked: with less, and each bend wider than the tube, a tube can't meet itself.
 * Source: Schur's comparison theorem (a curve that turns less in all is straighter). Exact but for the path's chords.
 */
export function selfDistanceMm(path: TubePath): number | null {
  let least = Number.POSITIVE_INFINITY
  for (const [index, edge] of path.edges.entries()) {
    const turnedAfter = edge.turnedRad + edge.turnsRad / 2
    for (let later = index + 2; later < path.edges.length; later++) {
      const other = path.edges[later]
      if (!other || other.turnedRad + other.turnsRad / 2 - turnedAfter < Math.PI * (1 - 1e-9)) continue
      if (leastApartMm(edge, other) >= least) continue
      least = Math.min(least, edgeDistanceMm([edge.from, edge.to], [other.from, other.to]))
    }
  }
  return Number.isFinite(least) ? least : null
}

export interface SelfContact {
  readonly verdict: 'clear' | 'may touch' | 'touches'
  /** Between the walls, the tube taken as wide as its larger side; under 0 where it may touch. Null: never turns back. */
  readonly clearanceMm: number | null
}

/** Whether the finished part meets itself. Between the smaller and larger side of a rectangular tube the answer is "may". */
export function selfContact(
  path: TubePath,
  tube: { readonly widthMm: number; readonly heightMm: number },
): SelfContact {
  const distanceMm = selfDistanceMm(path)
  if (distanceMm === null) return { verdict: 'clear', clearanceMm: null }
  const larger = Math.max(tube.widthMm, tube.heightMm)
  const smaller = Math.min(tube.widthMm, tube.heightMm)
  const verdict = distanceMm < smaller ? 'touches' : distanceMm < larger ? 'may touch' : 'clear'
  return { verdict, clearanceMm: distanceMm - larger }
}
