import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { LIMITS_OF_INSPECTION } from '@/app/_paper/inspection-document'
import { inspectionOf } from '@/app/_paper/release-papers'
import { rowId } from '@/app/_shop/row-id'
import { DataTable } from '@/app/_ui/data-table'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { stateMarks } from '@/app/jobs/state-marks'
import { formatAngle } from '@/lib/core/format'
import { bendLookWords, bendStateWords, penetrantWords } from '@/lib/records/bend-record/rules'
import { readRelease } from '@/lib/records/release/read'
import { releasedBends } from '@/lib/records/release/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Release' }

/** What was let go, on which measurements, by whom, and what that does not say. */
export default async function ReleasePage({ params }: { params: Promise<{ id: string }> }) {
  await requireActor('job.read')
  const id = rowId((await params).id)
  const [shop, release] = await Promise.all([readShop(), id === null ? null : readRelease(id)])
  if (!release) notFound()
  const { job } = release
  const record = inspectionOf(release, shop)
  const bends = releasedBends(release)
  const others = job.releases.filter((one) => one.id !== release.id)
  return (
    <>
      <PageHead
        kind={`Release ${release.number}`}
        title={`${release.snapshot.pieces.length} × ${job.revision.part.name}, revision ${job.revision.letter}`}
        trail={[
          { label: 'Jobs', href: '/jobs' },
          { label: job.number, href: `/jobs/${job.id}#papers` },
        ]}
        actions={
          <>
            <a className="button button-primary" href={`/releases/${release.id}/inspection.pdf`}>
              Inspection record
            </a>
            <a className="button" href={`/releases/${release.id}/packing.pdf`}>
              Packing list
            </a>
          </>
        }
      >
        Released by {release.by.name}, {record.releasedOn}
      </PageHead>
      <div className="stack stack-loose">
        <Notice title="What this release says">{LIMITS_OF_INSPECTION}</Notice>
        <Facts
          facts={[
            ['Customer', job.customer.name],
            [
              'Part',
              <Link key="part" href={`/parts/${job.revision.part.id}?rev=${job.revision.letter}`}>
                {job.revision.part.number} revision {job.revision.letter}
              </Link>,
            ],
            ['Pieces', record.pieceNumbers.join(', ')],
            ['Heat numbers', record.heatNumbers.join(', ') || 'none noted'],
            ['Measured by', `${record.inspectedBy}, the last on ${record.inspectedOn}`],
            ['Judged by', record.decisionRule],
            ['Statement', release.statementText],
          ]}
        />
        <Section title="Each bend as it was released">
          <DataTable
            caption="Bends, their last measured angles and verdicts"
            captionHidden
            rows={bends}
            rowKey={({ piece, bend }) => `${piece} ${bend}`}
            columns={[
              {
                key: 'where',
                head: 'Bend',
                title: true,
                cell: ({ piece, bend }) => `Piece ${piece}, bend ${bend}`,
              },
              {
                key: 'angle',
                head: 'Angle',
                cell: ({ last }) =>
                  last.angleFinalDeg === null
                    ? 'not measured'
                    : `${formatAngle(last.angleFinalDeg, { decimals: 2 })} ± ${formatAngle(last.gaugeUncertaintyDeg, { decimals: 2 })}`,
              },
              { key: 'gauge', head: 'Gauge', cell: ({ last }) => last.gaugeText || 'not noted' },
              { key: 'look', head: 'Look', cell: ({ look }) => (look ? bendLookWords[look] : 'not noted') },
              {
                key: 'dye',
                head: 'Dye penetrant',
                cell: ({ dyePenetrant }) => penetrantWords[dyePenetrant],
              },
              { key: 'by', head: 'By', cell: ({ last }) => last.by.name },
              { key: 'try', head: 'Try', cell: ({ last }) => String(last.tryNumber) },
              {
                key: 'verdict',
                head: 'Verdict',
                cell: ({ state }) => <Verdict word={stateMarks[state]} label={bendStateWords[state]} />,
              },
            ]}
          />
        </Section>
        <Section title="Concessions">
          {record.concessions.length === 0 ? (
            <p className="muted">None: nothing was let pass outside its limits.</p>
          ) : (
            <ul className="ruled-list">
              {record.concessions.map((one) => (
                <li key={`${one.pieceNumber} ${one.what}`}>
                  {one.pieceNumber}: {one.what}. {one.why} Accepted by {one.decidedBy}, {one.decidedOn}.
                </li>
              ))}
            </ul>
          )}
        </Section>
        <Section title="What was checked">
          <ul>
            {record.whatWasChecked.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <h3>What was not</h3>
          <ul>
            {record.whatWasNotChecked.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </Section>
        {others.length > 0 && (
          <Section title="Other releases of this job">
            <ul className="ruled-list">
              {others.map((one) => (
                <li key={one.id}>
                  <Link href={`/releases/${one.id}`}>
                    {one.number}, {one.pieces.length} {one.pieces.length === 1 ? 'piece' : 'pieces'}
                  </Link>
                </li>
              ))}
            </ul>
          </Section>
        )}
      </div>
    </>
  )
}
