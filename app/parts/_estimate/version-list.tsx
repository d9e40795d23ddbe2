import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { wayNames } from '@/lib/core/cost/ways'
import { formatDateTime } from '@/lib/core/format'
import type { EstimateResults, HomeWay } from '@/lib/records/estimate/rules'

type Version = {
  id: number
  number: number
  way: HomeWay
  createdAt: Date
  createdBy: { name: string } | null
  results: EstimateResults
  quoteLines: readonly { quote: { id: number; number: string } }[]
}

/** The versions of an estimate, newest first, each with its price and where it went. */
export function VersionList({
  versions,
  currency,
  timeZone,
}: {
  versions: readonly Version[]
  currency: string
  timeZone: string
}) {
  return (
    <DataTable
      caption="Versions of the estimate"
      captionHidden
      rows={versions}
      rowKey={({ id }) => String(id)}
      rowHref={({ id }) => `/estimates/${id}`}
      empty={<p className="muted">None yet. A version keeps the numbers with all they were made from.</p>}
      columns={[
        { key: 'number', head: 'Version', title: true, cell: ({ number }) => `Version ${number}` },
        { key: 'way', head: 'Way', cell: ({ way }) => wayNames[way] },
        {
          key: 'cost',
          head: 'Cost each',
          cell: ({ results }) =>
            results.quantities
              .map(({ pieceCount, priced }) => `${pieceCount}: ${moneyText(priced.unitCostCents, currency)}`)
              .join(', '),
        },
        {
          key: 'made',
          head: 'Made',
          cell: ({ createdAt, createdBy }) =>
            `${formatDateTime(createdAt.toISOString(), { locale: 'en-US', timeZone })}${createdBy ? `, ${createdBy.name}` : ''}`,
        },
        {
          key: 'quotes',
          head: 'In quotes',
          cell: ({ quoteLines }) =>
            quoteLines.length === 0 ? (
              '–'
            ) : (
              <span className="row">
                {[...new Map(quoteLines.map(({ quote }) => [quote.id, quote])).values()].map((quote) => (
                  <Link key={quote.id} href={`/quotes/${quote.id}`}>
                    {quote.number}
                  </Link>
                ))}
              </span>
            ),
        },
        {
          key: 'against',
          head: 'Set against',
          cell: ({ id, number }) => {
            const before = versions.find((one) => one.number === number - 1)
            return before ? (
              <Link href={`/estimates/${id}?against=${before.id}`}>version {before.number}</Link>
            ) : (
              '–'
            )
          },
        },
      ]}
    />
  )
}
