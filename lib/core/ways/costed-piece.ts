import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { WayKey } from '@/lib/core/cost/ways'
import { sectionProperties, type Tube } from '@/lib/core/mechanics/section'
import type { SpecBend, SpecInput } from '@/lib/core/spec/contract'
import { resolveSection } from '@/lib/core/spec/resolve'
import type { WaysQuestion } from '@/lib/core/ways/question'
import type { WayAnswer } from '@/lib/core/ways/way-answer'

/** What the money side needs of a part besides its shape. */
export interface PieceFinish {
  readonly startCut: CostedPart['startCut']
  readonly endCut: CostedPart['endCut']
  readonly holeCount: number
  readonly weldedEndCount: number
  readonly dyePenetrant: boolean
}

/** A piece as far as its hours and its money go. */
export interface PieceShape {
  readonly spec: Pick<SpecInput, 'tube' | 'material'> & { readonly bends: readonly SpecBend[] }
  readonly angleToleranceDeg: number
  readonly cutLengthMm: number
  readonly fillerKg: number
}

/** The numbers of one piece that drive its hours and its money, for one way of making it. */
export function costedPiece(question: WaysQuestion, answer: WayAnswer, finish: PieceFinish): CostedPart {
  return pieceOf(
    {
      spec: question.spec,
      angleToleranceDeg: question.angleToleranceDeg,
      cutLengthMm: cutLengthOf(question, answer),
      fillerKg: answer.support === 'lowMelt' ? (answer.spec?.answer.filler?.massKg ?? 0) : 0,
    },
    finish,
  )
}

/**
 * The same from the piece alone.
 * Features to check: each bend's angle, radius and plane, each length, and both ends. Source: the shop's inspection record.
 */
export function pieceOf(shape: PieceShape, finish: PieceFinish): CostedPart {
  const { spec, cutLengthMm } = shape
  const { tube, material } = resolveSection(spec)
  const section = sectionProperties(tube)
  const planes = spec.bends.filter((bend, index) => index > 0 && Math.abs(bend.rotationDeg) > 1e-6).length
  return {
    family: material.family,
    sectionAreaMm2: section.areaMm2,
    wallMm: spec.tube.wallMm,
    perimeterMm: outsidePerimeterMm(tube),
    boreAreaMm2: section.boreAreaMm2,
    cutLengthMm,
    massKg: (section.areaMm2 * cutLengthMm * material.densityKgM3) / 1e9,
    bendAnglesDeg: spec.bends.map(({ angleDeg }) => angleDeg),
    planeChangeCount: planes,
    angleToleranceDeg: shape.angleToleranceDeg,
    startCut: finish.startCut,
    endCut: finish.endCut,
    holeCount: finish.holeCount,
    featureCount: 3 * spec.bends.length + spec.bends.length + 1 + 2 + finish.holeCount,
    fillerKg: shape.fillerKg,
    weldedEndCount: finish.weldedEndCount,
    dyePenetrant: finish.dyePenetrant,
  }
}

/** Round the outside: pi D of a round tube; 2 (b + h) - (8 - 2 pi) ro with rounded corners. Exact. */
export function outsidePerimeterMm(tube: Tube): number {
  if (tube.shape === 'round') return Math.PI * tube.heightMm
  return 2 * (tube.widthMm + tube.heightMm) - (8 - 2 * Math.PI) * tube.cornerRadiusMm
}

/** The length sawn from a bar for one piece: of the way's own bend spec; for mitres the long lengths and a kerf each; for outside work the drawing's. */
export function cutLengthOf(question: WaysQuestion, answer: WayAnswer): number {
  const { spec } = question
  if (answer.spec) return answer.spec.answer.cutLengthMm
  if (answer.mitred) return answer.mitred.totalLongMm + answer.mitred.joints.length * (spec.kerfMm ?? 0)
  return drawnLengthMm(spec)
}

/** Along the centreline as drawn: straights and R a of each arc. Exact. */
export function drawnLengthMm(spec: { bends: readonly SpecBend[]; straightAfterMm: number }): number {
  return spec.bends.reduce(
    (sum, bend) => sum + bend.straightBeforeMm + (bend.centrelineRadiusMm * bend.angleDeg * Math.PI) / 180,
    spec.straightAfterMm,
  )
}

/** The way as its tube is told apart in stock: soft ways buy another temper. */
export function boughtMaterialId(question: WaysQuestion, answer: WayAnswer): string | undefined {
  const soft: readonly WayKey[] = ['t4ThenAged']
  return soft.includes(answer.way) ? answer.spec?.input.material.id : question.spec.material.id
}
