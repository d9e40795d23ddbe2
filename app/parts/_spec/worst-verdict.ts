import { isVerdictWord, type VerdictWord } from '@/app/_ui/verdict'
import type { Verdict } from '@/lib/core/spec/contract'

const gravest = ['refuse', 'collapses', 'flattens', 'warn', 'marks', 'holds', 'ok']

/** The verdict that decides for a bend; the first of equals. */
export function worstVerdict(verdicts: readonly Verdict[]): Verdict | undefined {
  return [...verdicts].sort((a, b) => gravest.indexOf(a.verdict) - gravest.indexOf(b.verdict))[0]
}

export const verdictWord = (word: string): VerdictWord => (isVerdictWord(word) ? word : 'cannot-say')

export const checkWords: Readonly<Record<Verdict['check'], string>> = {
  press: 'Press force',
  span: 'Free length',
  stroke: 'Ram travel',
  tear: 'Tearing',
  reduction: 'Reduction of area',
  flattening: 'Flattening',
  fillerBearing: 'Bearing on the filler',
  ramBearing: 'Bearing of the die',
}

/** The word and the sentence of a verdict; what a filler holds below what a caliper reads is held, no number to trust. */
export function verdictShown({ verdict, text }: Pick<Verdict, 'verdict' | 'text'>): {
  word: VerdictWord
  text: string
} {
  const held = /^held: /.exec(text)
  return held ? { word: 'held', text: text.slice(held[0].length) } : { word: verdictWord(verdict), text }
}
