import type { DrawnPart } from './part'
import { at, tubeMesh } from './tube-mesh'
import { add, cross, length, scale, subtract, unit, type Vec3 } from './vector'

export interface ModelTriangles {
  /** One for each straight and bend; `bend` is null for straights. Nine numbers a triangle. */
  pieces: readonly { bend: number | null; positions: readonly number[]; normals: readonly number[] }[]
  /** Lines round the ends and where bends begin and end: six numbers a line. */
  edges: readonly number[]
  centre: Vec3
  radiusMm: number
}

const cornerSteps = 5

/** The part's skin as triangles with smooth normals round its corners. */
export function modelTriangles(part: DrawnPart): ModelTriangles {
  const mesh = tubeMesh(part, cornerSteps)
  const ringNormals = mesh.rings.map((ring, index) => normalsRound(ring, at(mesh.stations, index).along))
  const pieces = mesh.pieces.map((piece) => ({
    bend: piece.kind === 'arc' ? piece.index : null,
    positions: [] as number[],
    normals: [] as number[],
  }))
  const edges: number[] = []
  for (const [strip, owner] of mesh.pieceOfStrip.entries()) {
    const near = at(mesh.rings, strip)
    const far = at(mesh.rings, strip + 1)
    const piece = at(pieces, owner)
    for (let side = 0; side < near.length; side++) {
      const next = (side + 1) % near.length
      const order = [
        [strip, side],
        [strip, next],
        [strip + 1, next],
        [strip, side],
        [strip + 1, next],
        [strip + 1, side],
      ] as const
      for (const [ring, place] of order) {
        piece.positions.push(...at(at(mesh.rings, ring), place))
        piece.normals.push(...at(at(ringNormals, ring), place))
      }
    }
    if (mesh.pieceOfStrip[strip - 1] !== owner) edges.push(...loop(near))
    if (strip === mesh.pieceOfStrip.length - 1) edges.push(...loop(far))
  }
  if (mesh.bore) {
    for (const [end, rim] of mesh.bore.entries()) {
      edges.push(...loop(rim))
      const strip = end === 0 ? 0 : mesh.pieceOfStrip.length - 1
      addLip(at(pieces, at(mesh.pieceOfStrip, strip)), at(mesh.rings, strip + end), rim)
    }
  }
  const all = mesh.rings.flat()
  const low = all.reduce((a, b): Vec3 => [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])])
  const high = all.reduce((a, b): Vec3 => [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])])
  const centre = scale(add(low, high), 0.5)
  const radiusMm = Math.max(...all.map((point) => length(subtract(point, centre))))
  return { pieces: pieces.filter((piece) => piece.positions.length > 0), edges, centre, radiusMm }
}

/** The cut face between the tube's skin and its bore. */
function addLip(
  piece: { positions: number[]; normals: number[] },
  outer: readonly Vec3[],
  bore: readonly Vec3[],
): void {
  for (const [side, a] of outer.entries()) {
    const next = (side + 1) % outer.length
    const [b, c, d] = [at(outer, next), at(bore, next), at(bore, side)]
    const normal = unit(cross(subtract(b, a), subtract(c, a)))
    for (const corner of [a, b, c, a, c, d]) {
      piece.positions.push(...corner)
      piece.normals.push(...normal)
    }
  }
}

function normalsRound(ring: readonly Vec3[], along: Vec3): readonly Vec3[] {
  return ring.map((_, place) => {
    const before = at(ring, (place + ring.length - 1) % ring.length)
    const after = at(ring, (place + 1) % ring.length)
    return unit(cross(subtract(after, before), along))
  })
}

function loop(ring: readonly Vec3[]): number[] {
  return ring.flatMap((point, place) => [...point, ...at(ring, (place + 1) % ring.length)])
}
