import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { formatDate, formatLength, formatPercent, formatStress } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import { byteText } from '@/lib/records/file/rules'
import { readShop } from '@/lib/records/shop/read'
import { type LotBar, type ReadLot, readLot } from '@/lib/records/stock/read'
import { pieceStanding, priceByUnit, rackWords, sizeWords } from '@/lib/records/stock/rules'
import { may, requireActor } from '@/lib/server/session'
import '../stock.css'
import { BarActs, PutBack } from '../bar-acts'
import { AddBarsForm, CertificateForm } from '../lot-additions'

export const metadata: Metadata = { title: 'Lot' }

type Asked = { params: Promise<{ id: string }>; searchParams: Promise<{ bar?: string }> }

export default async function LotPage({ params, searchParams }: Asked) {
  const actor = await requireActor('stock.read')
  const id = rowId((await params).id)
  const [shop, lot] = await Promise.all([readShop(), id === null ? null : readLot(id)])
  if (!lot) notFound()
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const mayWrite = may(actor, 'stock.write')
  const chosenId = rowId(String((await searchParams).bar ?? ''))
  const onRack = lot.pieces.filter((bar) => bar.usedAt === null)
  const chosen = mayWrite ? onRack.find((bar) => bar.id === chosenId) : undefined
  const barWords = (bar: LotBar) => ({
    id: bar.id,
    version: bar.version,
    lengthText: formatLength(bar.lengthMm, { unit: shop.lengthUnit, decimals: 4 }),
    place: bar.place,
    reserved: bar.reservedForJob !== null,
  })
  const made = lot.pieces.flatMap((bar) => bar.pieces.map((piece) => ({ bar, piece })))
  const price = priceByUnit(lot.priceCentsPerM, shop.lengthUnit)
  const stress = (stressMPa: number | null) =>
    stressMPa === null ? 'the table’s' : formatStress(stressMPa, { unit: shopUnits[shop.lengthUnit].stress })
  return (
    <>
      <PageHead
        kind={`Lot ${lot.number}`}
        title={`${lot.materialId}, ${sizeWords(lot, shop.lengthUnit)}`}
        trail={[{ label: 'Stock', href: '/stock' }]}
        actions={mayWrite && <LinkButton href={`/stock/${lot.id}/edit`}>Change</LinkButton>}
      >
        {onRack.length === 0 ? 'None left on the rack' : `On the rack: ${rackWords(onRack, shop.lengthUnit)}`}
      </PageHead>
      <div className="stack stack-loose">
        <div className="split split-even">
          <Section title="What it is">
            <Facts
              facts={[
                [
                  'Heat number',
                  lot.heatNumber ? (
                    <Link className="mono" href={`/trace?heat=${encodeURIComponent(lot.heatNumber)}`}>
                      {lot.heatNumber}
                    </Link>
                  ) : (
                    'not noted'
                  ),
                ],
                [
                  'Received',
                  formatDate(lot.receivedOn.toISOString().slice(0, 10), {
                    locale: 'en-US',
                    timeZone: shop.timeZone,
                  }),
                ],
                ['Supplier', lot.supplierText || 'not noted'],
                ['Place', lot.place || 'not noted'],
                [
                  'Corner radius',
                  lot.shape === 'round'
                    ? 'none: round'
                    : lot.cornerRadiusMm === null
                      ? 'the usual one of the material'
                      : formatLength(lot.cornerRadiusMm, shop.lengthUnit),
                ],
                ...(may(actor, 'estimate.read')
                  ? [
                      [
                        'Price',
                        `${moneyText(price.cents, shop.currency)} a ${price.by === 'ft' ? 'foot' : 'metre'}`,
                      ] as const,
                    ]
                  : []),
              ]}
            />
          </Section>
          <Section title="Certificate">
            {lot.certificateYieldMPa !== null && (
              <p className="muted">
                A job whose reserved tubes are all of this lot is planned with these, not with the table’s
                values.
              </p>
            )}
            <Facts
              facts={[
                ['Yield', stress(lot.certificateYieldMPa)],
                ['Tensile', stress(lot.certificateTensileMPa)],
                [
                  'Elongation',
                  lot.certificateElongationPct === null
                    ? 'the table’s'
                    : formatPercent(lot.certificateElongationPct / 100),
                ],
                ['Paper', <CertificatePaper key="paper" lot={lot} />],
              ]}
            />
            {mayWrite && <CertificateForm lotId={lot.id} replaces={lot.certificateFile !== null} />}
          </Section>
        </div>
        {chosen && (
          <Section
            id="bar"
            title={`${chosen.isOffcut ? 'Offcut' : 'Bar'} ${chosen.id}, ${formatLength(chosen.lengthMm, shop.lengthUnit)}`}
          >
            <BarActs
              key={`${chosen.id} ${chosen.version}`}
              bar={barWords(chosen)}
              units={units}
              lotHref={`/stock/${lot.id}`}
            />
          </Section>
        )}
        <Section title="Bars and offcuts">
          <DataTable
            caption="Bars of this lot, those on the rack first"
            captionHidden
            rows={lot.pieces}
            rowKey={(bar) => String(bar.id)}
            columns={[
              {
                key: 'bar',
                head: 'Bar',
                title: true,
                cell: (bar) =>
                  `${bar.isOffcut ? 'Offcut' : 'Bar'} ${bar.id}, ${formatLength(bar.lengthMm, shop.lengthUnit)}`,
              },
              { key: 'place', head: 'Place', cell: (bar) => bar.place || lot.place || '–' },
              {
                key: 'from',
                head: 'Cut from',
                cell: (bar) => (bar.cutFromId ? `bar ${bar.cutFromId}` : '–'),
              },
              { key: 'state', head: 'State', cell: (bar) => <Standing bar={bar} /> },
              {
                key: 'made',
                head: 'Pieces of it',
                cell: (bar) => (bar.pieces.length === 0 ? 'none' : String(bar.pieces.length)),
              },
              ...(mayWrite
                ? [
                    {
                      key: 'acts',
                      head: 'What to do',
                      cell: (bar: LotBar) => {
                        if (bar.usedAt === null) {
                          return (
                            <Link href={`/stock/${lot.id}?bar=${bar.id}#bar`}>
                              Cut, measure or scrap<span className="visually-hidden"> bar {bar.id}</span>
                            </Link>
                          )
                        }
                        const untouched =
                          bar.pieces.length === 0 && !lot.pieces.some(({ cutFromId }) => cutFromId === bar.id)
                        return untouched ? (
                          <PutBack bar={barWords(bar)} />
                        ) : (
                          <span className="muted">nothing</span>
                        )
                      },
                    },
                  ]
                : []),
            ]}
          />
        </Section>
        <Section title="What was made of it">
          <DataTable
            caption="Pieces of jobs cut from this lot"
            captionHidden
            rows={made}
            rowKey={({ piece }) => String(piece.id)}
            rowHref={({ piece }) => `/jobs/${piece.job.id}`}
            empty={<p className="muted">No piece of a job is cut from this lot yet.</p>}
            columns={[
              {
                key: 'piece',
                head: 'Piece',
                title: true,
                cell: ({ piece }) => `${piece.job.number}, piece ${piece.number}`,
              },
              { key: 'part', head: 'Part', cell: ({ piece }) => piece.job.revision.part.name },
              ...(may(actor, 'customer.read')
                ? [
                    {
                      key: 'customer',
                      head: 'Customer',
                      cell: ({ piece }: (typeof made)[number]) => piece.job.customer.name,
                    },
                  ]
                : []),
              { key: 'bar', head: 'Bar', cell: ({ bar }) => `bar ${bar.id}` },
              { key: 'status', head: 'State', cell: ({ piece }) => piece.status },
            ]}
          />
        </Section>
        {mayWrite && (
          <Section title="More bars of this lot">
            <AddBarsForm lotId={lot.id} units={units} />
          </Section>
        )}
      </div>
    </>
  )
}

function CertificatePaper({ lot }: { lot: ReadLot }) {
  const file = lot.certificateFile
  if (!file) return 'not attached'
  return (
    <a href={`/files/${file.id}`} target="_blank" rel="noreferrer">
      {file.name}, {byteText(file.byteCount)}
    </a>
  )
}

function Standing({ bar }: { bar: LotBar }) {
  const words = pieceStanding({
    usedAt: bar.usedAt,
    lastWord: bar.last?.action ?? null,
    job: bar.reservedForJob,
  })
  const note = bar.last?.detailText ? `: ${bar.last.detailText}` : ''
  if (bar.usedAt !== null || bar.reservedForJob === null) return `${words}${note}`
  return (
    <>
      reserved for <Link href={`/jobs/${bar.reservedForJob.id}`}>{bar.reservedForJob.number}</Link>
    </>
  )
}
