import { Mark, type MarkName } from '@/app/_ui/marks'
import { type AskStanding, standingWords } from '@/lib/records/ask/rules'

const marks: Readonly<Record<AskStanding, MarkName>> = {
  chase: 'caution',
  waiting: 'wait',
  answered: 'tick',
  declined: 'cross',
  silent: 'minus',
}

/** How an ask stands, by its mark and its word. */
export function Standing({ standing }: { standing: AskStanding }) {
  return (
    <span className="verdict">
      <span className="verdict-word">
        <Mark name={marks[standing]} />
        {standingWords[standing]}
      </span>
    </span>
  )
}
