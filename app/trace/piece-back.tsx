import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { Pictures } from '@/app/jobs/pictures'
import { tryReadings } from '@/app/jobs/try-readings'
import { formatAngle, formatDate, formatDateTime, formatDuration, formatLength } from '@/lib/core/format'
import { dispositionNotes } from '@/lib/core/inspection/disposition'
import type { LengthUnit } from '@/lib/core/units'
import { sizeWords } from '@/lib/records/stock/rules'
import type { PieceTrace } from '@/lib/records/trace/read'
import '@/app/jobs/jobs.css'

type Shop = { lengthUnit: LengthUnit; timeZone: string }

/** The set-up as it was kept with the try. */
type KeptSetup = {
  travellerIssue?: number
  press?: string
  supportSpanMm?: number | null
  die?: string
  strap?: string
  filler?: string
  fillerLot?: string
}

const marks = { pass: 'pass', fail: 'fail', cannotSay: 'cannot-say', waiting: 'waiting' } as const

/** Everything that stands behind one piece. */
export function PieceBack({
  piece,
  shop,
  sees,
}: {
  piece: PieceTrace
  shop: Shop
  sees: { customers: boolean }
}) {
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  const moment = (at: Date) => formatDateTime(at.toISOString(), place)
  const { job } = piece
  const lot = piece.stockPiece?.lot
  const pots = [...new Map(job.fillerEntries.map((entry) => [entry.filler.id, entry])).values()]
  const setUpWords = (kept: unknown) => {
    const setup = (kept ?? {}) as KeptSetup
    return [
      setup.press,
      setup.supportSpanMm ? `span ${formatLength(setup.supportSpanMm, shop.lengthUnit)}` : '',
      setup.die && `die ${setup.die}`,
      setup.strap && `strap ${setup.strap}`,
      setup.filler && `filler ${setup.filler}${setup.fillerLot ? `, ${setup.fillerLot}` : ''}`,
      setup.travellerIssue && `traveller issue ${setup.travellerIssue}`,
    ]
      .filter(Boolean)
      .join(', ')
  }
  return (
    <>
      <PageHead
        kind={`Trace of piece ${piece.number}, ${piece.status}`}
        title={`${job.number}, ${job.revision.part.name}`}
        trail={[
          { label: 'Trace', href: '/trace' },
          { label: job.number, href: `/jobs/${job.id}` },
        ]}
      />
      <div className="stack stack-loose">
        <Section title="What it is, and of what">
          <Facts
            facts={[
              [
                'Part',
                <Link key="part" href={`/parts/${job.revision.part.id}?rev=${job.revision.letter}`}>
                  {job.revision.part.number} revision {job.revision.letter}
                </Link>,
              ],
              [
                'Customer',
                sees.customers ? (
                  <Link key="customer" href={`/customers/${job.customer.id}`}>
                    {job.customer.name}
                  </Link>
                ) : (
                  job.customer.name
                ),
              ],
              [
                'Heat number',
                lot?.heatNumber ? (
                  <Link
                    key="heat"
                    className="mono"
                    href={`/trace?heat=${encodeURIComponent(lot.heatNumber)}`}
                  >
                    {lot.heatNumber}
                  </Link>
                ) : (
                  'not known: no tube is named for this piece'
                ),
              ],
              [
                'Lot',
                lot ? (
                  <Link key="lot" href={`/stock/${lot.id}`}>
                    {lot.number}, {lot.materialId}, {sizeWords(lot, shop.lengthUnit)}
                  </Link>
                ) : (
                  'none'
                ),
              ],
              [
                'Cut from',
                piece.stockPiece
                  ? `${piece.stockPiece.isOffcut ? 'offcut' : 'bar'} ${piece.stockPiece.id} of ${formatLength(piece.stockPiece.lengthMm, shop.lengthUnit)}`
                  : 'not cut yet',
              ],
              [
                'Supplier',
                lot
                  ? `${lot.supplierText || 'not noted'}, received ${formatDate(lot.receivedOn.toISOString().slice(0, 10), place)}`
                  : '–',
              ],
              [
                'Certificate',
                lot?.certificateFile ? (
                  <a key="file" href={`/files/${lot.certificateFile.id}`} target="_blank" rel="noreferrer">
                    {lot.certificateFile.name}
                  </a>
                ) : (
                  'not attached'
                ),
              ],
              [
                'Filler poured on the job',
                pots.length === 0
                  ? 'none entered'
                  : pots
                      .map(
                        ({ filler }) =>
                          `${filler.shopNumber}, ${filler.name}${filler.lotText ? `, ${filler.lotText}` : ''}`,
                      )
                      .join('; '),
              ],
              ...(piece.replaces
                ? [
                    [
                      'Replaces',
                      <Link key="replaces" href={`/trace?piece=${piece.replaces.id}`}>
                        piece {piece.replaces.number}
                      </Link>,
                    ] as const,
                  ]
                : []),
              ...piece.replacements.map(
                (one) =>
                  [
                    'Replaced by',
                    <Link key={one.id} href={`/trace?piece=${one.id}`}>
                      piece {one.number}
                    </Link>,
                  ] as const,
              ),
            ]}
          />
        </Section>
        <Section title="How it was bent, by whom and with which gauge">
          <DataTable
            caption="Tries of this piece"
            captionHidden
            rows={piece.bendRecords}
            rowKey={(record) => String(record.id)}
            empty={<p className="muted">No try is logged.</p>}
            columns={[
              {
                key: 'try',
                head: 'Bend, try',
                title: true,
                cell: (record) => `Bend ${record.bendPosition}, try ${record.tryNumber}`,
              },
              {
                key: 'read',
                head: 'Read',
                cell: (record) => (
                  <span className="stack stack-tight">
                    <span>
                      {tryReadings(
                        record,
                        job.revision.bends[record.bendPosition - 1]?.angleDeg ?? 0,
                        shop.lengthUnit,
                      ).join(', ') || 'nothing yet'}
                    </span>
                    <Pictures
                      files={record.photos}
                      of={`bend ${record.bendPosition}, try ${record.tryNumber}`}
                    />
                  </span>
                ),
              },
              {
                key: 'gauge',
                head: 'Gauge',
                cell: (record) =>
                  `${record.gaugeText || 'not noted'} ±${formatAngle(record.gaugeUncertaintyDeg, { decimals: 2 })}`,
              },
              { key: 'setup', head: 'Set-up', cell: (record) => setUpWords(record.setup) || 'not kept' },
              { key: 'by', head: 'By', cell: (record) => `${record.by.name}, ${moment(record.at)}` },
              { key: 'verdict', head: 'Verdict', cell: (record) => <Verdict word={marks[record.verdict]} /> },
            ]}
          />
          {piece.operationLogs.length > 0 && (
            <DataTable
              caption="Clocks that ran for this piece"
              rows={piece.operationLogs}
              rowKey={(log) => String(log.id)}
              columns={[
                { key: 'name', head: 'Operation', title: true, cell: (log) => log.operation.name },
                { key: 'by', head: 'By', cell: (log) => log.by.name },
                { key: 'at', head: 'Started', cell: (log) => moment(log.startedAt) },
                {
                  key: 'for',
                  head: 'For',
                  cell: (log) =>
                    log.endedAt ? formatDuration((+log.endedAt - +log.startedAt) / 60_000) : 'still running',
                },
              ]}
            />
          )}
        </Section>
        <Section title="Faults and release">
          <ul className="ruled-list">
            {piece.faults.map((fault) => (
              <li key={fault.number}>
                <Link href={`/faults/${fault.id}`}>{fault.number}</Link>: {fault.description}.{' '}
                {fault.disposition
                  ? `${dispositionNotes[fault.disposition].name} by ${fault.decidedBy?.name ?? 'nobody named'}: ${fault.whyText}`
                  : 'Not decided.'}
              </li>
            ))}
            {piece.releases.map(({ release }) => (
              <li key={release.id}>
                <Link href={`/releases/${release.id}`}>{release.number}</Link>: released by {release.by.name},{' '}
                {moment(release.at)}
              </li>
            ))}
            {piece.faults.length + piece.releases.length === 0 && (
              <li className="muted">No fault, not released.</li>
            )}
          </ul>
          <p className="muted small">
            What was measured and by whom. It does not say that the part may be used: a licensed engineer and
            local codes decide that.
          </p>
        </Section>
      </div>
    </>
  )
}
