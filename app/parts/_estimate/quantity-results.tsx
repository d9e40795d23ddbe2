import { Bars } from '@/app/_ui/bars'
import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import type { Estimate } from '@/lib/core/cost/estimate'
import { marginAndMarkup } from '@/lib/core/cost/money'
import { formatNumber, formatPercent } from '@/lib/core/format'
import { calendarDays, type PricedQuantity } from '@/lib/records/estimate/rules'

export type Shown = { estimate: Estimate; priced: PricedQuantity }

const pieces = (count: number) => `${count} ${count === 1 ? 'piece' : 'pieces'}`

/** What a piece costs at each quantity, on one scale, and the orders behind it in a table. */
export function QuantityResults({
  quantities,
  currency,
}: {
  quantities: readonly Shown[]
  currency: string
}) {
  const money = (cents: number) => moneyText(Math.round(cents), currency)
  return (
    <div className="stack">
      <Bars
        label="Cost of one piece by quantity: expected, with one order in ten below and one above the whisker"
        bars={quantities.map(({ estimate, priced }) => ({
          key: String(estimate.pieceCount),
          label: pieces(estimate.pieceCount),
          expected: priced.unitCostCents,
          low: Math.round(estimate.costPerPieceCents.p10),
          high: Math.round(estimate.costPerPieceCents.p90),
          text: `${money(priced.unitCostCents)} each`,
          note: `${money(estimate.costPerPieceCents.p10)} to ${money(estimate.costPerPieceCents.p90)}`,
        }))}
      />
      <DataTable
        caption="The order at each quantity"
        captionHidden
        rows={quantities}
        rowKey={({ estimate }) => String(estimate.pieceCount)}
        columns={[
          {
            key: 'pieces',
            head: 'Order',
            title: true,
            cell: ({ estimate }) => pieces(estimate.pieceCount),
          },
          { key: 'low', head: 'Low, 1 in 10 below', cell: ({ estimate }) => money(estimate.costCents.p10) },
          {
            key: 'mean',
            head: 'Expected cost',
            cell: ({ estimate }) => <strong>{money(estimate.costCents.mean)}</strong>,
          },
          { key: 'high', head: 'High, 1 in 10 above', cell: ({ estimate }) => money(estimate.costCents.p90) },
          { key: 'each', head: 'Cost each', cell: ({ priced }) => money(priced.unitCostCents) },
          {
            key: 'price',
            head: 'Price each',
            cell: ({ priced }) => <strong>{money(priced.unitPriceCents)}</strong>,
          },
          {
            key: 'margin',
            head: 'Margin, of the price',
            cell: ({ priced }) => share(earnedBy(priced).marginFraction),
          },
          {
            key: 'markup',
            head: 'Markup, on the cost',
            cell: ({ priced }) => share(earnedBy(priced).markupFraction),
          },
          {
            key: 'starts',
            head: 'Starts to expect',
            cell: ({ estimate }) =>
              `${formatNumber(estimate.starts.expected, { decimals: 1 })}; ${estimate.starts.p90} do 9 times in 10`,
          },
          {
            key: 'days',
            head: 'Working days',
            cell: ({ estimate }) =>
              `${formatNumber(estimate.sampledDays.p50, { decimals: 0 })}; ${formatNumber(estimate.sampledDays.p90, { decimals: 0 })} do 9 times in 10 (${calendarDays(estimate.sampledDays.p90)} by the calendar)`,
          },
        ]}
      />
      <p className="muted small">
        Low, expected and high come from {quantities[0]?.estimate.costCents.drawCount ?? 0} orders drawn from
        the spreads of all times and of the starts, always with the same seed: the same entries give the same
        numbers. Prices are rounded as the shop’s rates say.
      </p>
    </div>
  )
}

const earnedBy = ({ unitCostCents, unitPriceCents }: PricedQuantity) =>
  marginAndMarkup(unitCostCents, unitPriceCents)

const share = (fraction: number | null) => (fraction === null ? '–' : formatPercent(fraction))
