import { describe, expect, it } from 'vitest'
import { type BendState, newTryRefusal, nextStepText } from '@/lib/records/bend-record/rules'

describe('What comes next at the bench', () => {
  it.each<[BendState[], string | null]>([
    [['none', 'none'], 'Bend 1'],
    [['pass', 'none'], 'Bend 2'],
    [['pass', 'waiting'], 'Complete the try at bend 2'],
    [['fail', 'none'], 'The office decides about bend 1'],
    [['conceded', 'again'], 'Do bend 2 again'],
    [['cannotSay'], 'Measure bend 1 again, with a better gauge'],
    [['pass', 'conceded'], null],
    [[], null],
  ])('%j: %s', (states, text) => {
    expect(nextStepText(states)).toBe(text)
  })

  it('sends nobody to a bend at which nothing can be logged, but to complete or to wait for a decision', () => {
    const states: BendState[] = ['none', 'waiting', 'pass', 'fail', 'cannotSay', 'conceded', 'again']
    const sent = states.filter((state) => /^(Bend|Do|Measure)/.test(nextStepText([state]) ?? ''))
    expect(sent.map(newTryRefusal)).toEqual(sent.map(() => null))
    expect(sent).toEqual(['none', 'cannotSay', 'again'])
  })
})
