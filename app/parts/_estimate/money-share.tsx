import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { StackedBar } from '@/app/_ui/stacked-bar'
import type { Estimate, EstimateLine, LineGroup } from '@/lib/core/cost/estimate'
import { tornado } from '@/lib/core/cost/tornado'
import { readSentence } from '@/lib/core/sentence'
import type { LengthUnit } from '@/lib/core/units'

const groupWords: Readonly<Record<Exclude<LineGroup, 'waiting'>, string>> = {
  labour: 'Labour',
  material: 'Tube',
  filler: 'Filler or sand lost',
  consumables: 'Small things',
  tooling: 'Tools to make',
  outside: 'Heat treatment outside',
  overhead: 'Overhead',
  contingency: 'Contingency',
}

/** Where the money of one order goes, what moves it most, and every line behind it. */
export function MoneyShare({
  estimate,
  units,
}: {
  estimate: Estimate
  units: { lengthUnit: LengthUnit; currency: string }
}) {
  const money = (cents: number) => moneyText(Math.round(cents), units.currency)
  const groups = Object.entries(groupWords).flatMap(([group, label]) => {
    const cents = estimate.lines
      .filter((line) => line.group === group)
      .reduce((sum, line) => sum + line.likelyCents, 0)
    return cents > 0 ? [{ key: group, label, value: cents, text: money(cents) }] : []
  })
  const movers = tornado(estimate.model, 5)
  return (
    <div className="stack">
      <StackedBar label={`Where the money of ${estimate.pieceCount} goes, likely values`} shares={groups} />
      <p className="small">
        <span className="muted">
          What moves the order most, one thing at a time from its low to its high:{' '}
        </span>
        {movers.map(({ label, swingCents }) => `${label} ${money(swingCents)}`).join('; ')}.
      </p>
      <details>
        <summary>Every line, low, likely and high</summary>
        <EstimateLines lines={estimate.lines} units={units} />
      </details>
    </div>
  )
}

function EstimateLines({
  lines,
  units,
}: {
  lines: readonly EstimateLine[]
  units: { lengthUnit: LengthUnit; currency: string }
}) {
  const money = (cents: number) => moneyText(cents, units.currency)
  const sum = (end: 'lowCents' | 'likelyCents' | 'highCents') =>
    money(lines.reduce((total, line) => total + line[end], 0))
  return (
    <DataTable
      caption="Lines of the estimate"
      captionHidden
      rows={lines}
      rowKey={({ key }) => key}
      columns={[
        { key: 'label', head: 'Line', title: true, cell: ({ label }) => label, foot: 'Together' },
        {
          key: 'from',
          head: 'From',
          cell: ({ from }) => <span className="muted small">{readSentence(from, units.lengthUnit)}</span>,
        },
        { key: 'low', head: 'Low', cell: (line) => money(line.lowCents), foot: sum('lowCents') },
        { key: 'likely', head: 'Likely', cell: (line) => money(line.likelyCents), foot: sum('likelyCents') },
        { key: 'high', head: 'High', cell: (line) => money(line.highCents), foot: sum('highCents') },
      ]}
    />
  )
}
