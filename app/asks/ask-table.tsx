import type { ReactNode } from 'react'
import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { formatDate } from '@/lib/core/format'
import { type AskRow, askNumber, askStanding, chasedWords, isExpired } from '@/lib/records/ask/rules'
import { Standing } from './standing'

/** Asks as lists show them: whom, for what, how it stands and what came of it. */
export function AskTable({
  asks,
  caption,
  today,
  shop,
  empty,
}: {
  asks: readonly AskRow[]
  caption: string
  today: Date
  shop: { currency: string; timeZone: string }
  empty: ReactNode
}) {
  const day = (at: Date) =>
    formatDate(at.toISOString().slice(0, 10), { locale: 'en-US', timeZone: shop.timeZone })
  const outcome = (ask: AskRow): string => {
    if (ask.status === 'declined') return ask.declineReason
    if (ask.status === 'silent') return `no answer, ${chasedWords(ask.chasedCount)}`
    if (ask.status === 'sent')
      return `chase on ${day(ask.chaseOn)}${ask.chasedCount > 0 ? `, ${chasedWords(ask.chasedCount)} so far` : ''}`
    const prices = ask.prices.map(
      ({ quantity, unitCents }) => `${quantity} at ${moneyText(unitCents, shop.currency)}`,
    )
    const held = isExpired(ask, today) && ask.validUntil ? `; expired ${day(ask.validUntil)}` : ''
    return `${prices.join(', ')}${held}`
  }
  return (
    <DataTable
      caption={caption}
      captionHidden
      rows={asks}
      rowKey={(ask) => String(ask.id)}
      rowHref={(ask) => `/asks/${ask.id}`}
      empty={empty}
      columns={[
        {
          key: 'source',
          head: 'Ask',
          title: true,
          cell: (ask) => `${askNumber(ask.id)} ${ask.source.name}`,
        },
        {
          key: 'part',
          head: 'For',
          cell: ({ revision }) => `${revision.part.number} ${revision.letter}, ${revision.part.name}`,
        },
        { key: 'quantities', head: 'Quantities', cell: (ask) => ask.quantities.join(' / ') },
        { key: 'sent', head: 'Sent', cell: (ask) => <span className="nowrap">{day(ask.sentOn)}</span> },
        {
          key: 'standing',
          head: 'Stands',
          cell: (ask) => <Standing standing={askStanding(ask, today)} />,
        },
        { key: 'outcome', head: 'What came of it', cell: outcome },
      ]}
    />
  )
}
