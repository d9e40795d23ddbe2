import type { AlloyFamily } from '@/lib/core/materials/alloys'

/** The numbers of a part that drive its hours and its money. Lengths along the tube, one piece. */
export interface CostedPart {
  readonly family: AlloyFamily
  /** Cross-section of the wall, what a square saw cut goes through. */
  readonly sectionAreaMm2: number
  readonly wallMm: number
  /** Outside perimeter of the section. */
  readonly perimeterMm: number
  readonly boreAreaMm2: number
  /** Length sawn from the bar for one bent piece, grips and trim in it. */
  readonly cutLengthMm: number
  readonly massKg: number
  /** Bend angles in order; an empty list is a straight piece. */
  readonly bendAnglesDeg: readonly number[]
  /** Bends whose plane differs from the one before. */
  readonly planeChangeCount: number
  /** Tightest tolerance on a bend angle, plus or minus. */
  readonly angleToleranceDeg: number
  readonly startCut: 'square' | 'mitre' | 'saddle'
  readonly endCut: 'square' | 'mitre' | 'saddle'
  readonly holeCount: number
  /** Dimensions, angles and notes to be checked on the finished piece. */
  readonly featureCount: number
  /** Filler poured into one piece; 0 where none. */
  readonly fillerKg: number
  /** Joints to the customer's frame that this shop welds; 0 where the customer welds. */
  readonly weldedEndCount: number
  /** Dye penetrant wanted on every bend. */
  readonly dyePenetrant: boolean
}

/**
 * Whether the numbers can belong to a real piece; throws in physical words where not.
 * Valid: positive section and length, angles between 0 and 180, whole counts.
 */
export function requireCostedPart(part: CostedPart): void {
  const positive: [string, number][] = [
    ['The wall cross-section', part.sectionAreaMm2],
    ['The wall', part.wallMm],
    ['The perimeter', part.perimeterMm],
    ['The cut length', part.cutLengthMm],
    ['The mass of a piece', part.massKg],
    ['The angle tolerance', part.angleToleranceDeg],
  ]
  for (const [what, value] of positive) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${what} is above zero, not ${value}.`)
  }
  const counts: [string, number][] = [
    ['Plane changes', part.planeChangeCount],
    ['Holes', part.holeCount],
    ['Features to check', part.featureCount],
    ['Welded ends', part.weldedEndCount],
  ]
  for (const [what, value] of counts) {
    if (!Number.isInteger(value) || value < 0)
      throw new RangeError(`${what} are counted from 0, not ${value}.`)
  }
  if (!(part.fillerKg >= 0))
    throw new RangeError(`Filler in a piece is zero or more, not ${part.fillerKg} kg.`)
  for (const angleDeg of part.bendAnglesDeg) {
    if (!(angleDeg > 0 && angleDeg < 180)) {
      throw new RangeError(`A bend turns by more than 0 and less than 180 degrees, not ${angleDeg}.`)
    }
  }
}
