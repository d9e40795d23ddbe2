'use client'

import { AskNumber } from '@/app/_ui/ask-number'
import { DataTable } from '@/app/_ui/data-table'
import { Verdict } from '@/app/_ui/verdict'
import type { BendAnswer } from '@/lib/core/spec/contract'
import { type SpecAsked, type SpecNumber, specChain, specNumber } from './spec-chains'
import { verdictWord, worstVerdict } from './worst-verdict'

type Row = { bend: BendAnswer; index: number }

/** Every bend in one line: what to aim for, with what, and whether it can be done. */
export function BendTable({
  asked,
  selectedBend,
  onSelectBend,
}: {
  asked: Omit<SpecAsked, 'bend' | 'index'>
  selectedBend: number
  onSelectBend: (bend: number) => void
}) {
  const ask = (number: SpecNumber) =>
    function AskedCell({ bend, index }: Row) {
      const ofBend = { ...asked, bend, index }
      return <AskNumber of={specNumber(number, ofBend)} chain={() => specChain(number, ofBend)} />
    }
  const { input, answer } = asked
  const filled = input.method.support === 'lowMelt'
  return (
    <DataTable
      caption="What to aim for at each bend"
      captionHidden
      rows={answer.bends.map((bend, index) => ({ bend, index }))}
      rowKey={({ index }) => String(index)}
      rowClass={({ index }) => (index === selectedBend ? 'bend-line-lit' : undefined)}
      columns={[
        {
          key: 'bend',
          head: 'Bend',
          title: true,
          cell: ({ index }) => (
            <button
              type="button"
              className="button button-quiet"
              aria-pressed={index === selectedBend}
              onClick={() => onSelectBend(index)}
            >
              Bend {index + 1}
            </button>
          ),
        },
        { key: 'wanted', head: 'Wanted', cell: ask('wantedAngle') },
        { key: 'loaded', head: 'Load to', cell: ask('loadedAngle') },
        { key: 'press', head: filled ? 'At the press' : 'Ram backed off', cell: ask('angleAtPress') },
        ...(filled ? [{ key: 'final', head: 'After melt-out', cell: ask('finalAngle') }] : []),
        { key: 'die', head: 'Die radius', cell: ask('dieRadius') },
        { key: 'force', head: 'Force', cell: ask('pressForce') },
        { key: 'travel', head: 'Ram travel', cell: ask('ramTravel') },
        {
          key: 'verdict',
          head: 'Verdict',
          cell: ({ bend }) => {
            const worst = worstVerdict(bend.verdicts)
            return worst ? <Verdict word={verdictWord(worst.verdict)} /> : '–'
          },
        },
      ]}
    />
  )
}
