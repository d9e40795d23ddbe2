import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { Verdict } from '@/app/_ui/verdict'
import { formatNumber } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import type { WayRow } from '@/lib/records/way/read'
import { marginText, temperText, toleranceText, wayVerdicts } from './way-words'

const hours = (value: number) => formatNumber(value, { decimals: 1, keepZeros: true })

/** All ways on one page: whether, by what margin, what comes out, what it takes. Money only for those who see it. */
export function WaysTable({
  rows,
  unit,
  currency,
  showsMoney,
}: {
  rows: readonly WayRow[]
  unit: LengthUnit
  currency: string
  showsMoney: boolean
}) {
  const each = (cents: number) => moneyText(Math.round(cents), currency)
  return (
    <DataTable
      caption="Ways of making it, side by side"
      captionHidden
      rows={rows}
      rowKey={({ answer }) => answer.way}
      rowClass={({ answer }) => (answer.word === 'no' ? 'way-no' : undefined)}
      empty={null}
      columns={[
        {
          key: 'way',
          head: 'Way',
          title: true,
          cell: ({ answer }) => <Link href={`#way-${answer.way}`}>{answer.name}</Link>,
        },
        {
          key: 'word',
          head: 'Can it be done here',
          cell: ({ answer }) => (
            <span className="stack stack-tight">
              <Verdict {...wayVerdicts[answer.word]} />
              <span className="muted small">{marginText(answer)}</span>
            </span>
          ),
        },
        { key: 'tolerance', head: 'Tolerance to expect', cell: ({ answer }) => toleranceText(answer) },
        { key: 'temper', head: 'Temper it ends in', cell: ({ answer }) => temperText(answer, unit) },
        {
          key: 'hours',
          head: 'Hours',
          numeric: true,
          cell: ({ estimate }) => (estimate ? hours(estimate.labourHours.likely) : '–'),
        },
        ...(showsMoney
          ? [
              {
                key: 'cost',
                head: 'Cost a piece',
                cell: ({ estimate, tubeCosted }: WayRow) =>
                  estimate ? (
                    <span className="stack stack-tight">
                      <span className="money strong">{each(estimate.costPerPieceCents.mean)}</span>
                      <span className="muted small">
                        {each(estimate.costPerPieceCents.p10)} to {each(estimate.costPerPieceCents.p90)}
                        {!tubeCosted && ', without tube'}
                      </span>
                    </span>
                  ) : (
                    '–'
                  ),
              },
            ]
          : []),
        {
          key: 'days',
          head: 'Working days',
          numeric: true,
          cell: ({ estimate }) =>
            estimate ? `${Math.ceil(estimate.days.low)}–${Math.ceil(estimate.days.high)}` : '–',
        },
      ]}
    />
  )
}
