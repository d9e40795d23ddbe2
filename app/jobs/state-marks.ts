import type { BendState } from '@/lib/records/bend-record/rules'
import type { VerdictWord } from '../_ui/verdict'

/** The mark beside the word for where a bend stands. */
export const stateMarks: Readonly<Record<BendState, VerdictWord>> = {
  none: 'waiting',
  waiting: 'waiting',
  pass: 'pass',
  fail: 'fail',
  cannotSay: 'cannot-say',
  conceded: 'conceded',
  again: 'warn',
}
