/** The part of the model that a number from outside checks. */
export const checkedParts = [
  'section',
  'curve',
  'moment',
  'press',
  'springback',
  'wall',
  'flattening',
  'tearing',
  'temper',
  'learning',
  'geometry',
  'templates',
  'spread',
  'materials',
  'judging',
  'cost',
  'cutting',
  'units',
] as const
export type CheckedPart = (typeof checkedParts)[number]

/**
 * published: printed in the source named, read there. second hand: printed there, read where another quotes it. memory: printed
 * there, quoted from memory. closed form: a textbook's exact solution. by hand: worked out on paper from definitions.
 * independent: another program or another method. practice: shop practice, no source.
 */
export const checkKinds = [
  'published',
  'second hand',
  'memory',
  'closed form',
  'by hand',
  'independent',
  'practice',
] as const
export type CheckKind = (typeof checkKinds)[number]

/** A number from outside the program, and how near the program has to come. */
export type OutsideCheck = Readonly<{
  part: CheckedPart
  claim: string
  source: string
  kind: CheckKind
  expected: number
  tolerance: number
  /** As shown after the number; empty for a pure number. */
  unit: string
}>

/** The check with what the program gave when it was last run. */
export type OutsideResult = OutsideCheck & Readonly<{ got: number }>

/** True where the program's number lies within the tolerance, but for what binary numbers cannot hold. */
export const isWithin = ({ expected, got, tolerance }: OutsideResult): boolean =>
  Math.abs(got - expected) <= tolerance * (1 + 1e-6) + 1e-14 * Math.abs(expected)
