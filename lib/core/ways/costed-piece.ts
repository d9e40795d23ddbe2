import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { WayKey } from '@/lib/core/cost/ways'
import { sectionProperties, type Tube } from '@/lib/core/mechanics/section'
import { resolveSpec } from '@/lib/core/spec/resolve'
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

/**
 * The numbers of one piece that drive its hours and its money, for one way of making it.
 *   cut length from the way's own bend spec; for mitres the long lengths and a kerf each; for outside work the drawing's
 * Features to check: each bend's angle, radius and plane, each length, and both ends. Source: the shop's inspection record.
 */
export function costedPiece(question: WaysQuestion, answer: WayAnswer, finish: PieceFinish): CostedPart {
  const { spec } = question
  const { tube, material } = resolveSpec(spec)
  const section = sectionProperties(tube)
  const cutLengthMm = cutLengthOf(question, answer)
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
    angleToleranceDeg: question.angleToleranceDeg,
    startCut: finish.startCut,
    endCut: finish.endCut,
    holeCount: finish.holeCount,
    featureCount: 3 * spec.bends.length + spec.bends.length + 1 + 2 + finish.holeCount,
    fillerKg: answer.support === 'lowMelt' ? (answer.spec?.answer.filler?.massKg ?? 0) : 0,
    weldedEndCount: finish.weldedEndCount,
    dyePenetrant: finish.dyePenetrant,
  }
}

/** Round the outside: pi D of a round tube; 2 (b + h) - (8 - 2 pi) ro with rounded corners. Exact. */
export function outsidePerimeterMm(tube: Tube): number {
  if (tube.shape === 'round') return Math.PI * tube.heightMm
  return 2 * (tube.widthMm + tube.heightMm) - (8 - 2 * Math.PI) * tube.cornerRadiusMm
}

/** The length sawn from a bar for one piece. */
export function cutLengthOf(question: WaysQuestion, answer: WayAnswer): number {
  const { spec } = question
  if (answer.spec) return answer.spec.answer.cutLengthMm
  if (answer.mitred) return answer.mitred.totalLongMm + answer.mitred.joints.length * (spec.kerfMm ?? 0)
  const arcs = spec.bends.reduce(
    (sum, bend) => sum + bend.straightBeforeMm + (bend.centrelineRadiusMm * bend.angleDeg * Math.PI) / 180,
    0,
  )
  return arcs + spec.straightAfterMm
}

/** The way as its tube is told apart in stock: soft ways buy another temper. */
export function boughtMaterialId(question: WaysQuestion, answer: WayAnswer): string | undefined {
  const soft: readonly WayKey[] = ['t4ThenAged']
  return soft.includes(answer.way) ? answer.spec?.input.material.id : question.spec.material.id
}
