import type { ReactNode } from 'react'
import { classNames } from './class-names'
import { Mark, type MarkName } from './marks'

const looks = {
  pass: { text: 'pass', mark: 'tick', tone: 'good' },
  fail: { text: 'fail', mark: 'cross', tone: 'stop' },
  waiting: { text: 'waiting', mark: 'wait', tone: 'plain' },
  'cannot-say': { text: 'cannot say', mark: 'ask', tone: 'plain' },
  conceded: { text: 'conceded', mark: 'hand', tone: 'plain' },
  ok: { text: 'within limits', mark: 'tick', tone: 'good' },
  warn: { text: 'look at this', mark: 'caution', tone: 'plain' },
  refuse: { text: 'refuse', mark: 'stop', tone: 'stop' },
  holds: { text: 'holds', mark: 'tick', tone: 'good' },
  held: { text: 'held', mark: 'tick', tone: 'good' },
  marks: { text: 'marks', mark: 'wave', tone: 'plain' },
  flattens: { text: 'flattens', mark: 'sag', tone: 'stop' },
  collapses: { text: 'collapses', mark: 'stop', tone: 'stop' },
} as const satisfies Record<string, { text: string; mark: MarkName; tone: 'good' | 'plain' | 'stop' }>

export type VerdictWord = keyof typeof looks

export function isVerdictWord(word: string): word is VerdictWord {
  return word in looks
}

/** A verdict: its mark, its word, and the number behind it as children. */
export function Verdict({
  word,
  label,
  children,
}: {
  word: VerdictWord
  label?: string
  children?: ReactNode
}) {
  const look = looks[word]
  return (
    <span className={classNames('verdict', look.tone !== 'plain' && `verdict-${look.tone}`)}>
      <span className="verdict-word">
        <Mark name={look.mark} />
        {label ?? look.text}
        {children ? ':' : ''}
      </span>
      {children && <span className="verdict-why">{children}</span>}
    </span>
  )
}
