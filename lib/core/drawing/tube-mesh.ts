import { type Piece, type Station, stationOn, walkCentreline } from './centreline'
import { endOffsetMm } from './end-cut'
import type { DrawnPart, EndCut } from './part'
import { type SectionRing, sectionRing } from './tube-section'
import { add, cross, type Point, scale, type Vec3 } from './vector'

/** The tube as rings of points along its centreline; strip j lies between ring j and j + 1. */
export interface TubeMesh {
  pieces: readonly Piece[]
  stations: readonly Station[]
  rings: readonly (readonly Vec3[])[]
  /** For each strip the piece it belongs to. */
  pieceOfStrip: readonly number[]
  corner: readonly boolean[]
  /** The bore's rim at the start and at the end, where the wall is known. */
  bore: readonly [start: readonly Vec3[], end: readonly Vec3[]] | null
}

const arcStepRad = Math.PI / 36

/** What stands at a place of a list that is as long as another. */
export function at<Value>(list: readonly Value[], index: number): Value {
  const value = list[index]
  if (value === undefined) throw new RangeError(`nothing at place ${index} of ${list.length}`)
  return value
}

/** The surface of a part. `cornerSteps` as in `sectionRing`. */
export function tubeMesh(part: DrawnPart, cornerSteps = 0): TubeMesh {
  const pieces = walkCentreline(part)
  const stations: Station[] = [at(pieces, 0).from]
  const pieceOfStrip: number[] = []
  for (const [index, piece] of pieces.entries()) {
    if (piece.kind === 'straight' && piece.lengthMm === 0) continue
    const steps = piece.kind === 'straight' ? 1 : Math.max(2, Math.ceil(piece.angleRad / arcStepRad))
    for (let step = 1; step <= steps; step++) {
      stations.push(stationOn(piece, step / steps))
      pieceOfStrip.push(index)
    }
  }
  const section = sectionRing(part.tube, cornerSteps)
  const last = stations.length - 1
  const cuts = (index: number) => ({
    startCut: index === 0 ? part.startCut : undefined,
    endCut: index === last ? part.endCut : undefined,
  })
  const rings = stations.map((station, index) => ringAt(station, section, cuts(index)))
  return {
    pieces,
    stations,
    rings,
    pieceOfStrip,
    corner: section.corner,
    bore: boreRims(part, stations, cornerSteps),
  }
}

function boreRims(part: DrawnPart, stations: readonly Station[], cornerSteps: number): TubeMesh['bore'] {
  const start = stations[0]
  const end = stations.at(-1)
  if (part.tube.wallMm === undefined || !start || !end) return null
  const section = sectionRing(part.tube, cornerSteps, part.tube.wallMm)
  return [ringAt(start, section, { startCut: part.startCut }), ringAt(end, section, { endCut: part.endCut })]
}

function ringAt(
  station: Station,
  section: SectionRing,
  { startCut, endCut }: { startCut?: EndCut; endCut?: EndCut },
): readonly Vec3[] {
  const side = cross(station.along, station.up)
  return section.points.map((point: Point) => {
    const across = add(scale(station.up, point[0]), scale(side, point[1]))
    const beyond = endOffsetMm(endCut, point) - endOffsetMm(startCut, point)
    return add(add(station.at, across), scale(station.along, beyond))
  })
}
