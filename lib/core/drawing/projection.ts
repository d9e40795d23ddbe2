import { stationOn } from './centreline'
import { at, type TubeMesh } from './tube-mesh'
import { add, cross, dot, type Point, scale, subtract, unit, type Vec3 } from './vector'

export type ViewName = 'elevation' | 'plan' | 'end' | 'isometric'

/** A direction to look from: what lies to the right, what lies up, and the way to the viewer. */
export interface View {
  right: Vec3
  up: Vec3
  toViewer: Vec3
}

function viewFrom(toViewer: Vec3, roughlyUp: Vec3): View {
  const back = unit(toViewer)
  const right = unit(cross(roughlyUp, back))
  return { right, up: cross(back, right), toViewer: back }
}

/** Third-angle views. Elevation shows the first bend true; plan is seen from above it, end from the far end of the first straight. */
export const views: Readonly<Record<ViewName, View>> = {
  elevation: viewFrom([0, 0, 1], [0, 1, 0]),
  plan: viewFrom([0, 1, 0], [0, 0, -1]),
  end: viewFrom([1, 0, 0], [0, 1, 0]),
  isometric: viewFrom([-0.62, 0.62, 1], [0, 1, 0]),
}

export function project(view: View, point: Vec3): Point {
  return [dot(point, view.right), dot(point, view.up)]
}

/** One straight or bend as it is seen: what it covers, and its lines. All in mm on the view plane. */
export interface SeenPiece {
  piece: number
  depthMm: number
  covers: readonly (readonly Point[])[]
  lines: readonly (readonly Point[])[]
  /** Scribed lines across the tube where a bend begins and ends. */
  tangentLines: readonly (readonly Point[])[]
  centreline: readonly Point[]
}

/** The tube as seen from one direction, farthest piece first, so that each next one is drawn over it. */
export function seeTube(mesh: TubeMesh, view: View): readonly SeenPiece[] {
  const facing = stripFacing(mesh, view)
  const seen = mesh.pieces.flatMap((_, piece) => {
    const strips = mesh.pieceOfStrip.flatMap((owner, strip) => (owner === piece ? [strip] : []))
    return strips.length > 0 ? [seePiece(mesh, view, facing, piece, strips)] : []
  })
  return seen.sort((a, b) => a.depthMm - b.depthMm)
}

function centreOf(ring: readonly Vec3[]): Vec3 {
  return scale(
    ring.reduce((sum, point) => add(sum, point), [0, 0, 0] as Vec3),
    1 / ring.length,
  )
}

/** For each strip and side: does that bit of wall face the viewer? */
function stripFacing(mesh: TubeMesh, view: View): readonly (readonly boolean[])[] {
  return mesh.pieceOfStrip.map((_, strip) => {
    const near = at(mesh.rings, strip)
    const far = at(mesh.rings, strip + 1)
    const middle = scale(add(centreOf(near), centreOf(far)), 0.5)
    return near.map((corner, side) => {
      const next = (side + 1) % near.length
      const diagonal = subtract(at(far, next), corner)
      const other = subtract(at(far, side), at(near, next))
      const outward = scale(add(add(corner, at(far, next)), add(at(near, next), at(far, side))), 0.25)
      const raw = unit(cross(diagonal, other))
      const normal = dot(raw, subtract(outward, middle)) < 0 ? scale(raw, -1) : raw
      return dot(normal, view.toViewer) > 1e-6
    })
  })
}

function seePiece(
  mesh: TubeMesh,
  view: View,
  facing: readonly (readonly boolean[])[],
  piece: number,
  strips: readonly number[],
): SeenPiece {
  const flat = (points: readonly Vec3[]) => points.map((point) => project(view, point))
  const covers: Point[][] = []
  const lines: Point[][] = []
  const tangentLines: Point[][] = []
  const lastStrip = mesh.pieceOfStrip.length - 1
  for (const strip of strips) {
    covers.push(convexHull([...flat(at(mesh.rings, strip)), ...flat(at(mesh.rings, strip + 1))]))
    if (strip === 0) seeEnd(mesh, view, facing, 0, covers, lines)
    if (strip === lastStrip) seeEnd(mesh, view, facing, 1, covers, lines)
    if (strip > 0) {
      const changed = mesh.pieceOfStrip[strip - 1] !== piece
      seeAcross(mesh, view, facing, strip, changed, lines, tangentLines)
    }
  }
  lines.push(...seeAlong(mesh, view, facing, strips))
  const owner = at(mesh.pieces, piece)
  const steps = strips.length
  return {
    piece,
    depthMm: dot(stationOn(owner, 0.5).at, view.toViewer),
    covers,
    lines,
    tangentLines,
    centreline: Array.from({ length: steps + 1 }, (_, step) =>
      project(view, stationOn(owner, step / steps).at),
    ),
  }
}

function seeAlong(
  mesh: TubeMesh,
  view: View,
  facing: readonly (readonly boolean[])[],
  strips: readonly number[],
): Point[][] {
  const sides = mesh.corner.length
  const lines: Point[][] = []
  for (let side = 0; side < sides; side++) {
    let run: Point[] = []
    for (const strip of strips) {
      const here = at(at(facing, strip), side)
      const before = at(at(facing, strip), (side + sides - 1) % sides)
      const shown = here !== before || (at(mesh.corner, side) && here)
      if (!shown) {
        if (run.length > 0) lines.push(run)
        run = []
        continue
      }
      if (run.length === 0) run.push(project(view, at(at(mesh.rings, strip), side)))
      run.push(project(view, at(at(mesh.rings, strip + 1), side)))
    }
    if (run.length > 0) lines.push(run)
  }
  return lines
}

function seeAcross(
  mesh: TubeMesh,
  view: View,
  facing: readonly (readonly boolean[])[],
  strip: number,
  bendLine: boolean,
  lines: Point[][],
  tangentLines: Point[][],
): void {
  const ring = at(mesh.rings, strip)
  for (let side = 0; side < ring.length; side++) {
    const here = at(at(facing, strip), side)
    const before = at(at(facing, strip - 1), side)
    const segment = [project(view, at(ring, side)), project(view, at(ring, (side + 1) % ring.length))]
    if (here !== before) lines.push(segment)
    else if (bendLine && here) tangentLines.push(segment)
  }
}

function seeEnd(
  mesh: TubeMesh,
  view: View,
  facing: readonly (readonly boolean[])[],
  end: 0 | 1,
  covers: Point[][],
  lines: Point[][],
): void {
  const ring = at(mesh.rings, end === 0 ? 0 : mesh.rings.length - 1)
  const strip = end === 0 ? 0 : facing.length - 1
  const station = at(mesh.stations, end === 0 ? 0 : mesh.stations.length - 1)
  const outward = scale(station.along, end === 0 ? -1 : 1)
  const open = dot(outward, view.toViewer) > 1e-6
  const flat = ring.map((point) => project(view, point))
  covers.push(convexHull(flat))
  for (let side = 0; side < ring.length; side++) {
    if (open || at(at(facing, strip), side)) lines.push([at(flat, side), at(flat, (side + 1) % flat.length)])
  }
  if (open && mesh.bore) {
    const rim = mesh.bore[end].map((point) => project(view, point))
    lines.push([...rim, at(rim, 0)])
  }
}

/** The smallest convex outline round some points (Andrew's monotone chain). */
export function convexHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const half = (list: readonly Point[]) => {
    const chain: Point[] = []
    for (const point of list) {
      while (chain.length >= 2 && !turnsLeft(at(chain, chain.length - 2), at(chain, chain.length - 1), point))
        chain.pop()
      chain.push(point)
    }
    return chain.slice(0, -1)
  }
  return [...half(sorted), ...half(sorted.toReversed())]
}

function turnsLeft(a: Point, b: Point, c: Point): boolean {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 1e-12
}
