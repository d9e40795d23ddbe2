import { DataTable } from '@/app/_ui/data-table'
import type { Estimate } from '@/lib/core/cost/estimate'
import { formatPercent } from '@/lib/core/format'
import type { EstimateInputs } from '@/lib/records/estimate/rules'
import { ratesSet } from '@/lib/records/estimate-rate/rules'
import type { ShopUnits } from '@/lib/records/fields'
import { fieldWords, pointShown } from './number-chains'

/** Everything that a kept version takes otherwise than the shop does, each with what it would have been and why. */
export function SetByHand({
  inputs,
  estimate,
  units,
}: {
  inputs: EstimateInputs
  estimate: Estimate
  units: ShopUnits
}) {
  const { ask, ground } = inputs
  const shopYield = ground.rates.firstPassYieldFraction
  const rows = [
    ...(ask.yieldFraction === shopYield
      ? []
      : [
          {
            key: 'yield',
            what: 'Good the first time',
            value: formatPercent(ask.yieldFraction),
            was: formatPercent(shopYield),
            reason: ask.yieldReason || 'no reason kept',
          },
        ]),
    ...ratesSet(ground.rates, ask.rateOverrides, units).map(({ path, label, value, shop, reason }) => ({
      key: path,
      what: label,
      value,
      was: shop,
      reason,
    })),
    ...estimate.operations.flatMap(({ key, name, overridden }) =>
      overridden.map(({ field, value, original, reason }) => ({
        key: `${key} ${field}`,
        what: `${name}, ${fieldWords[field]}`,
        value: `${pointShown(value)} min`,
        was: `${pointShown(original)} min`,
        reason,
      })),
    ),
  ]
  return (
    <DataTable
      caption="Set for this estimate"
      captionHidden
      rows={rows}
      rowKey={({ key }) => key}
      empty={<p className="muted">Nothing: every rate and time is the shop’s.</p>}
      columns={[
        { key: 'what', head: 'What', title: true, cell: ({ what }) => what },
        { key: 'value', head: 'In this estimate', cell: ({ value }) => value },
        { key: 'was', head: 'The shop’s, or worked out', cell: ({ was }) => was },
        { key: 'reason', head: 'Why', cell: ({ reason }) => reason },
      ]}
    />
  )
}
