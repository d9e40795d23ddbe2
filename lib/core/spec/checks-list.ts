import { bendCheckRows } from '@/lib/core/spec/bend-checks'
import { shopCheckRows } from '@/lib/core/spec/shop-checks'

/** What the numbers are held to from outside, by the part of the model it checks. The page and its test read this one list. */
export type CheckedPart =
  | 'section'
  | 'curve'
  | 'moment'
  | 'press'
  | 'springback'
  | 'wall'
  | 'flattening'
  | 'tearing'
  | 'temper'
  | 'learning'
  | 'geometry'
  | 'spread'
  | 'materials'
  | 'judging'
  | 'cutting'
  | 'units'

/**
 * published: printed in the source named. closed form: a textbook's exact solution. by hand: worked out in the test.
 * independent: another program or another method. memory: a published value quoted from memory. practice: shop practice, no source.
 */
export type CheckKind = 'published' | 'closed form' | 'by hand' | 'independent' | 'memory' | 'practice'

export type OutsideCheck = Readonly<{
  part: CheckedPart
  claim: string
  source: string
  kind: CheckKind
  testFile: string
  /** Stands word for word in the test. */
  found: string
}>

export type CheckRow = readonly [
  part: CheckedPart,
  claim: string,
  source: string,
  kind: CheckKind,
  testFile: string,
  found: string,
]

export const outsideChecks: readonly OutsideCheck[] = [...bendCheckRows, ...shopCheckRows].map(
  ([part, claim, source, kind, testFile, found]) => ({ part, claim, source, kind, testFile, found }),
)
