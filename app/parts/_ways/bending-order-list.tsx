import { Notice } from '@/app/_ui/notice'
import { readSentence } from '@/lib/core/sentence'
import type { BendingOrder } from '@/lib/core/spec/bending-order'
import type { LengthUnit } from '@/lib/core/units'

/** In which order the bends are made, and what each would run into. */
export function BendingOrderList({ order, unit }: { order: BendingOrder; unit: LengthUnit }) {
  return (
    <div className="stack">
      {order.self.verdict !== 'clear' && (
        <Notice
          kind={order.self.verdict === 'touches' ? 'stop' : 'caution'}
          title={order.self.verdict === 'touches' ? 'The part runs into itself' : 'The part may touch itself'}
        >
          Two stretches of it come closer than the tube is thick. Look at the bend table.
        </Notice>
      )}
      <ol>
        {order.steps.map(({ bendIndex, conflicts }) => (
          <li key={bendIndex}>
            Bend {bendIndex + 1}
            {conflicts.length === 0
              ? ': nothing in the way'
              : `: ${conflicts.map(({ text }) => readSentence(text, unit)).join('; ')}`}
          </li>
        ))}
      </ol>
      <p className="muted small">
        Checked: grips on straight tube, the press’s table and columns where the press has them entered, and
        the part against itself. Try it with a bare tube first.
      </p>
    </div>
  )
}
