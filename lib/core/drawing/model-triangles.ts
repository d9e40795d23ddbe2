import type { DrawnPart } from './part'
import { tubeMesh } from './tube-mesh'
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
  const ringNormals = mesh.rings.map((ring, index) =>
    normalsRound(ring, mesh.stations[index]?.along ?? [1, 0, 0]),
  )
  const pieces = mesh.pieces.map((piece) => ({
    bend: piece.kind === 'arc' ? piece.index : null,
    positions: [] as number[],
    normals: [] as number[],
  }))
  const edges: number[] = []
  for (const [strip, owner] of mesh.pieceOfStrip.entries()) {
    const near = mesh.rings[strip] ?? []
    const far = mesh.rings[strip + 1] ?? []
    const piece = pieces[owner]
    if (!piece) continue
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
        piece.positions.push(...(mesh.rings[ring]?.[place] ?? [0, 0, 0]))
        piece.normals.push(...(ringNormals[ring]?.[place] ?? [0, 1, 0]))
      }
    }
    if (strip === 0 || mesh.pieceOfStrip[strip - 1] !== owner) edges.push(...loop(near))
    if (strip === mesh.pieceOfStrip.length - 1) edges.push(...loop(far))
  }
  if (mesh.bore) {
    for (const [end, rim] of mesh.bore.entries()) {
      edges.push(...loop(rim))
      addLip(
        pieces,
        mesh.rings[end === 0 ? 0 : mesh.rings.length - 1] ?? [],
        rim,
        end === 0 ? mesh.pieceOfStrip[0] : mesh.pieceOfStrip.at(-1),
      )
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
  pieces: readonly { positions: number[]; normals: number[] }[],
  outer: readonly Vec3[],
  bore: readonly Vec3[],
  owner: number | undefined,
): void {
  const piece = owner === undefined ? undefined : pieces[owner]
  const count = Math.min(outer.length, bore.length)
  for (let side = 0; side < count && piece; side++) {
    const next = (side + 1) % count
    const corners = [outer[side], outer[next], bore[next], outer[side], bore[next], bore[side]]
    const [a, b, c] = [outer[side], outer[next], bore[next]]
    if (!a || !b || !c) continue
    const normal = unit(cross(subtract(b, a), subtract(c, a)))
    for (const corner of corners) {
      piece.positions.push(...(corner ?? a))
      piece.normals.push(...normal)
    }
  }
}

function normalsRound(ring: readonly Vec3[], along: Vec3): readonly Vec3[] {
  return ring.map((_, place) => {
    const before = ring[(place + ring.length - 1) % ring.length]
    const after = ring[(place + 1) % ring.length]
    return before && after ? unit(cross(subtract(after, before), along)) : along
  })
}

function loop(ring: readonly Vec3[]): number[] {
  return ring.flatMap((point, place) => [...point, ...(ring[(place + 1) % ring.length] ?? point)])
}
