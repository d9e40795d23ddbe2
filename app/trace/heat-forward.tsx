import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { formatDate, formatDateTime } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import { rackWords, sizeWords } from '@/lib/records/stock/rules'
import type { readHeat } from '@/lib/records/trace/read'

type Found = Awaited<ReturnType<typeof readHeat>>
type Shop = { lengthUnit: LengthUnit; timeZone: string }

/** Every lot of one heat, what is left of it, and every piece that was made of it. */
export function HeatForward({
  heat,
  found,
  shop,
  sees,
}: {
  heat: string
  found: Found
  shop: Shop
  sees: { customers: boolean }
}) {
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  return (
    <>
      <PageHead kind="Heat number" title={heat} trail={[{ label: 'Trace', href: '/trace' }]}>
        {found.lots.length === 0
          ? 'No lot with this heat number was ever received.'
          : `${found.lots.length} ${found.lots.length === 1 ? 'lot' : 'lots'}, ${found.pieces.length} ${found.pieces.length === 1 ? 'piece' : 'pieces'} made of it.`}
      </PageHead>
      <div className="stack stack-loose">
        <Section title="Lots">
          <DataTable
            caption="Lots of this heat"
            captionHidden
            rows={found.lots}
            rowKey={(lot) => String(lot.id)}
            rowHref={(lot) => `/stock/${lot.id}`}
            empty={<p className="muted">None.</p>}
            columns={[
              { key: 'lot', head: 'Lot', title: true, cell: (lot) => lot.number },
              {
                key: 'what',
                head: 'What it is',
                cell: (lot) => `${lot.materialId}, ${sizeWords(lot, shop.lengthUnit)}`,
              },
              { key: 'supplier', head: 'Supplier', cell: (lot) => lot.supplierText || 'not noted' },
              {
                key: 'received',
                head: 'Received',
                cell: (lot) => formatDate(lot.receivedOn.toISOString().slice(0, 10), place),
              },
              {
                key: 'certificate',
                head: 'Certificate',
                cell: (lot) =>
                  lot.certificateFile ? (
                    <a href={`/files/${lot.certificateFile.id}`} target="_blank" rel="noreferrer">
                      {lot.certificateFile.name}
                    </a>
                  ) : (
                    'not attached'
                  ),
              },
              { key: 'left', head: 'On the rack', cell: (lot) => rackWords(lot.pieces, shop.lengthUnit) },
            ]}
          />
        </Section>
        <Section title="Pieces made of it">
          <DataTable
            caption="Pieces made of this heat and where they went"
            captionHidden
            rows={found.pieces}
            rowKey={(piece) => String(piece.id)}
            rowHref={(piece) => `/trace?piece=${piece.id}`}
            empty={<p className="muted">No piece is cut from it yet.</p>}
            columns={[
              {
                key: 'piece',
                head: 'Piece',
                title: true,
                cell: (piece) => `${piece.job.number}, piece ${piece.number}`,
              },
              {
                key: 'part',
                head: 'Part',
                cell: (piece) =>
                  `${piece.job.revision.part.number} ${piece.job.revision.letter}, ${piece.job.revision.part.name}`,
              },
              ...(sees.customers
                ? [
                    {
                      key: 'customer',
                      head: 'Customer',
                      cell: (piece: Found['pieces'][number]) => (
                        <Link href={`/customers/${piece.job.customer.id}`}>{piece.job.customer.name}</Link>
                      ),
                    },
                  ]
                : []),
              {
                key: 'bar',
                head: 'Tube',
                cell: (piece) => `${piece.stockPiece?.lot.number}, bar ${piece.stockPiece?.id}`,
              },
              { key: 'status', head: 'State', cell: (piece) => piece.status },
              {
                key: 'release',
                head: 'Released',
                cell: (piece) =>
                  piece.releases
                    .map(
                      ({ release }) =>
                        `${release.number}, ${formatDateTime(release.at.toISOString(), place)}`,
                    )
                    .join('; ') || 'not released',
              },
            ]}
          />
        </Section>
      </div>
    </>
  )
}
