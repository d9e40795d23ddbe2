import { moneyText } from '@/app/_ui/money'
import { Notice } from '@/app/_ui/notice'
import { formatDate, formatDateTime } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import type { DecisionMade } from '@/lib/records/decision/read'
import type { CostMove } from '@/lib/records/decision/rules'
import { WeighedView } from './weighed-view'

/** Decisions made, the newest first, each with its comparison as it stood; the newest says what has changed since. */
export function DecisionList({
  decisions,
  changed,
  moves,
  currency,
  unit,
  timeZone,
}: {
  decisions: readonly DecisionMade[]
  /** What the newest was made from and has changed since, in words. */
  changed: readonly string[]
  /** What that did to the cost of a piece. */
  moves: readonly CostMove[]
  currency: string
  unit: LengthUnit
  timeZone: string
}) {
  const place = { locale: 'en-US', timeZone }
  if (decisions.length === 0) return <p className="muted">Nothing is decided yet.</p>
  return (
    <div className="stack stack-loose">
      {decisions.map((decision, index) => (
        <article key={decision.id} className="stack stack-tight">
          <h3>
            {decision.chosenName}, for {decision.quantity} {decision.quantity === 1 ? 'piece' : 'pieces'}
          </h3>
          <p className="muted small">
            {decision.decidedBy?.name ?? 'The shop'},{' '}
            {formatDateTime(decision.decidedAt.toISOString(), place)}
            {decision.weighed.dueOn && `, due ${formatDate(decision.weighed.dueOn, place)}`}
          </p>
          <p className="typed-lines">{decision.whyText}</p>
          {index === 0 && changed.length > 0 && (
            <Notice kind="caution" title="Look at this decision again">
              <p>
                Changed since it was made: {changed.join(', ')}. The comparison above is from today’s records.
              </p>
              {moves.length > 0 && (
                <ul className="plain-list">
                  {moves.map(({ name, beforeCents, afterCents }) => (
                    <li key={name}>
                      {name}: {moved(beforeCents, afterCents, currency)}
                    </li>
                  ))}
                </ul>
              )}
            </Notice>
          )}
          <details>
            <summary>The comparison as it stood</summary>
            <WeighedView
              weighed={decision.weighed}
              currency={currency}
              unit={unit}
              chosenKey={decision.askId === null ? decision.way : `ask ${decision.askId}`}
            />
          </details>
        </article>
      ))}
    </div>
  )
}

function moved(beforeCents: number | null, afterCents: number | null, currency: string): string {
  if (beforeCents === null) return `was not there, now ${moneyText(afterCents ?? 0, currency)} a piece`
  if (afterCents === null) return `${moneyText(beforeCents, currency)} a piece, no longer there`
  return `${moneyText(beforeCents, currency)} became ${moneyText(afterCents, currency)} a piece`
}
