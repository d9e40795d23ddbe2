import { Bars } from '@/app/_ui/bars'
import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { inHundred, riskPhrase } from '@/lib/core/cost/compare'
import { formatAngle, formatNumber } from '@/lib/core/format'
import { readSentence } from '@/lib/core/sentence'
import { shopFormat } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import type { Weighed, WeighedRow } from '@/lib/records/decision/rules'
import { Tornado } from './tornado'

/** Whole days, from and to only where they differ. */
function dayRange({ p10, p90 }: { p10: number; p90: number }): string {
  const [from, to] = [p10, p90].map((days) => formatNumber(Math.ceil(days), { decimals: 0 }))
  return from === to ? `${from}` : `${from} to ${to}`
}

/** A comparison, live or as it was kept: everything on one scale, then what stands beside the money. */
export function WeighedView({
  weighed,
  currency,
  unit,
  chosenKey,
}: {
  weighed: Weighed
  currency: string
  unit: LengthUnit
  chosenKey?: string
}) {
  const money = (cents: number) => moneyText(Math.round(cents), currency)
  const { rows, pieceCount, apart = [] } = weighed
  return (
    <div className="stack stack-loose">
      <div className="stack stack-tight">
        {weighed.inHouseCheaperChance !== null && (
          <p className="strong">
            Making it here is {riskPhrase(weighed.inHouseCheaperChance, 'the cheaper')}:{' '}
            {inHundred(weighed.inHouseCheaperChance)} such orders.
            {rows.some(({ key, facts }) => key === weighed.bestInHouseKey && facts.withoutTube) &&
              ' Its tube is not in that: no bar has a price yet.'}
            {apart.length > 0 && (
              <span className="muted">
                {' '}
                Not counted here: {apart.map(({ name, because }) => `“${name}”, ${because}`).join('; ')}.
              </span>
            )}
          </p>
        )}
        {weighed.inHouseCheaperChance === null && (
          <p className="muted">
            {weighed.bestOutsideKey === null
              ? 'No outside price to set against it yet.'
              : 'No way of making it here to set against the outside prices.'}
          </p>
        )}
        {weighed.breakEven && (
          <p>
            By number of pieces, cheapest way here against cheapest answer: {weighed.breakEven.text} (looked
            up to {weighed.breakEven.lookedUpTo}; make is here, buy is outside, tube in proportion).
          </p>
        )}
      </div>
      <Bars
        label={`Cost of the order of ${pieceCount}, with its spread`}
        bars={rows.map((row) => ({
          key: row.key,
          label: row.name,
          expected: row.costCents.mean,
          low: row.costCents.p10,
          high: row.costCents.p90,
          text: money(row.costCents.mean),
          note: `${money(row.costCents.p10)} to ${money(row.costCents.p90)}${row.facts.withoutTube ? ', without tube' : ''}`,
          chosen: row.key === chosenKey,
        }))}
      />
      <DataTable
        caption="Ways and answers, side by side"
        captionHidden
        rows={rows}
        rowKey={(row) => row.key}
        empty={<p className="muted">Nothing can be weighed yet.</p>}
        columns={[
          {
            key: 'name',
            head: 'Way or answer',
            title: true,
            cell: (row) => (
              <span className="stack stack-tight">
                <span>{row.name}</span>
                <span className="muted small">
                  {row.kind === 'outside' ? 'outside' : row.word === 'doubtful' ? 'here, doubtful' : 'here'}
                </span>
              </span>
            ),
          },
          {
            key: 'each',
            head: 'Cost a piece',
            cell: (row) => (
              <span className="stack stack-tight">
                <span className="money strong">{money(row.costPerPieceCents.mean)}</span>
                <span className="muted small">
                  {money(row.costPerPieceCents.p10)} to {money(row.costPerPieceCents.p90)}
                </span>
              </span>
            ),
          },
          {
            key: 'cheapest',
            head: 'Cheapest of all',
            cell: (row) =>
              apart.some(({ key }) => key === row.key) ? 'not counted' : inHundred(row.cheapestChance),
          },
          {
            key: 'days',
            head: 'Working days',
            cell: (row) => (
              <span className="stack stack-tight">
                <span>{dayRange(row.days)}</span>
                {row.onTimeChance !== null && (
                  <span className="muted small">
                    {riskPhrase(row.onTimeChance, 'on time')} ({inHundred(row.onTimeChance)})
                  </span>
                )}
              </span>
            ),
          },
          { key: 'temper', head: 'Ends in', cell: (row) => temperOf(row, unit) },
          {
            key: 'tolerance',
            head: 'Angle to expect',
            cell: (row) =>
              row.facts.angleToleranceDeg === null
                ? 'as promised'
                : `±${formatAngle(row.facts.angleToleranceDeg, { decimals: 1 })}`,
          },
          {
            key: 'beside',
            head: 'Leaves behind; to know',
            cell: (row) => (
              <span className="stack stack-tight small">
                {row.facts.leavesBehind.length > 0 && <span>{row.facts.leavesBehind.join('; ')}</span>}
                {row.facts.withoutTube && (
                  <span className="strong">no tube in the cost: no bar has a price yet</span>
                )}
                {row.facts.remarks.map((remark) => (
                  <span key={remark} className="strong">
                    {remark}
                  </span>
                ))}
                {row.word === 'doubtful' && <span>{readSentence(row.because, unit)}</span>}
                {row.facts.leavesBehind.length + row.facts.remarks.length === 0 &&
                  !row.facts.withoutTube &&
                  row.word !== 'doubtful' &&
                  '–'}
              </span>
            ),
          },
        ]}
      />
      {weighed.cannot.length > 0 && (
        <details>
          <summary>
            Not among them: {weighed.cannot.length} {weighed.cannot.length === 1 ? 'way' : 'ways'} that cannot
            be done here
          </summary>
          <ul>
            {weighed.cannot.map(({ way, name, because }) => (
              <li key={way}>
                {name}: {readSentence(because, unit)}
              </li>
            ))}
          </ul>
        </details>
      )}
      {weighed.tornado && weighed.tornado.bars.length > 0 && (
        <div className="stack stack-tight">
          <h3>What moves the cost of “{weighed.tornado.of}” most</h3>
          <Tornado bars={weighed.tornado.bars} currency={currency} />
        </div>
      )}
    </div>
  )
}

function temperOf({ facts }: WeighedRow, unit: LengthUnit) {
  if (facts.endTemper === null) return '–'
  return `${facts.endTemper}, yield ${facts.yieldMPa === null ? '–' : shopFormat(unit).stress(facts.yieldMPa)}`
}
