import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { Notice } from '@/app/_ui/notice'
import { Facts } from '@/app/_ui/section'
import { formatLength, formatPercent } from '@/lib/core/format'
import { type AskFacts, isExpired } from '@/lib/records/ask/rules'
import type { ShopUnits } from '@/lib/records/fields'

/** An answer as it was logged, with what stands against it on top. */
export function AnswerFacts({
  ask,
  changedRadiiMm,
  today,
  units,
  day,
}: {
  ask: AskFacts
  changedRadiiMm: readonly number[]
  today: Date
  units: ShopUnits
  day: (at: Date) => string
}) {
  const money = (cents: number) => moneyText(cents, units.currency)
  const length = (mm: number) => formatLength(mm, units.lengthUnit)
  return (
    <div className="stack">
      {isExpired(ask, today) && ask.validUntil && (
        <Notice kind="caution" title={`Expired on ${day(ask.validUntil)}`}>
          Ask them to price it again before you count on it.
        </Notice>
      )}
      {changedRadiiMm.length > 0 && ask.offeredRadiusMm !== null && (
        <Notice kind="caution" title="Another radius than drawn">
          They would make {length(ask.offeredRadiusMm)}; the drawing has{' '}
          {changedRadiiMm.map(length).join(', ')}. Settle it with whoever the part is for before you order.
        </Notice>
      )}
      {ask.conditionsText && (
        <Notice title="Their conditions">
          <span className="typed-lines">{ask.conditionsText}</span>
        </Notice>
      )}
      <div className="split split-even">
        <DataTable
          caption="Prices by quantity"
          captionHidden
          rows={ask.prices}
          rowKey={(price) => String(price.quantity)}
          columns={[
            {
              key: 'from',
              head: 'From',
              unit: 'pieces',
              title: true,
              cell: (price) => String(price.quantity),
            },
            { key: 'each', head: 'Each', numeric: true, cell: (price) => money(price.unitCents) },
          ]}
        />
        <Facts
          facts={[
            ['Tooling, once', money(ask.toolingCents)],
            ['Set-up, each order', money(ask.setUpCents)],
            ['Minimum order', ask.minimumOrderCents === 0 ? 'none' : money(ask.minimumOrderCents)],
            ['Freight', money(ask.freightCents)],
            [
              'Material we supply',
              ask.suppliedCentsPerPiece === 0 ? 'none' : `${money(ask.suppliedCentsPerPiece)} a piece`,
            ],
            ['Lead time', ask.leadTimeDays === null ? '–' : `${ask.leadTimeDays} working days`],
            ['Prices hold until', ask.validUntil ? day(ask.validUntil) : 'not said'],
            [
              'Turned away',
              `${formatPercent(ask.expectedRejectFraction)} expected, ${ask.replacesRejects ? 'replaced at their cost' : 'ours to order more'}`,
            ],
            ...(ask.orderedOn
              ? [
                  [
                    'Ordered',
                    `${ask.orderedQuantity ?? '–'} pieces on ${day(ask.orderedOn)}${ask.deliveredOn ? `, delivered ${day(ask.deliveredOn)}` : ''}`,
                  ] as const,
                ]
              : []),
          ]}
        />
      </div>
    </div>
  )
}
