import type { DrawnPart } from './part'
import { add, cross, radians, scale, subtract, turn, type Vec3 } from './vector'

/** Where the tube is at one place and how it lies there. */
export interface Station {
  at: Vec3
  /** The way the tube runs. */
  along: Vec3
  /** The direction of the tube's height, carried along without twist. */
  up: Vec3
}

export interface StraightPiece {
  kind: 'straight'
  /** The straight before this bend; the last straight has the number of bends. */
  index: number
  from: Station
  lengthMm: number
}

export interface ArcPiece {
  kind: 'arc'
  index: number
  from: Station
  centre: Vec3
  /** Right-handed axis the bend turns about. */
  axis: Vec3
  angleRad: number
  radiusMm: number
}

export type Piece = StraightPiece | ArcPiece

/**
 * The part's centreline as straights and true arcs, in order.
 * Frame: right-handed, first straight along +x, first bend turning toward +y; before each later bend its direction is
 * turned about the tube's own axis by the right-hand rule. The tube's section is carried without twist, so that turning
 * the bend plane does not turn the tube.
 */
export function walkCentreline(part: DrawnPart): readonly Piece[] {
  const pieces: Piece[] = []
  let here: Station = { at: [0, 0, 0], along: [1, 0, 0], up: [0, 1, 0] }
  let toward: Vec3 = [0, 1, 0]
  for (const [index, bend] of part.bends.entries()) {
    const straight: StraightPiece = { kind: 'straight', index, from: here, lengthMm: bend.straightBeforeMm }
    here = stationOn(straight, 1)
    toward = turn(toward, here.along, radians(bend.rotationDeg))
    const arc: ArcPiece = {
      kind: 'arc',
      index,
      from: here,
      centre: add(here.at, scale(toward, bend.centrelineRadiusMm)),
      axis: cross(here.along, toward),
      angleRad: radians(bend.angleDeg),
      radiusMm: bend.centrelineRadiusMm,
    }
    here = stationOn(arc, 1)
    toward = turn(toward, arc.axis, arc.angleRad)
    pieces.push(straight, arc)
  }
  pieces.push({ kind: 'straight', index: part.bends.length, from: here, lengthMm: part.straightAfterMm })
  return pieces
}

/** The station at a fraction 0 to 1 of a piece's length. */
export function stationOn(piece: Piece, fraction: number): Station {
  const { from } = piece
  if (piece.kind === 'straight') {
    return { ...from, at: add(from.at, scale(from.along, piece.lengthMm * fraction)) }
  }
  const angle = piece.angleRad * fraction
  const arm = subtract(from.at, piece.centre)
  return {
    at: add(piece.centre, turn(arm, piece.axis, angle)),
    along: turn(from.along, piece.axis, angle),
    up: turn(from.up, piece.axis, angle),
  }
}
