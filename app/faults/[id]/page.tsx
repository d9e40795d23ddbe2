import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { Pictures } from '@/app/jobs/pictures'
import { formatDateTime, formatLength } from '@/lib/core/format'
import { dispositionNotes } from '@/lib/core/inspection/disposition'
import { readFault } from '@/lib/records/fault/read'
import { readBarsForJob } from '@/lib/records/job/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { DecideForm } from '../decide-form'
import { PictureForm } from '../picture-form'
import { TryLine } from '../try-line'
import { WhatFollowed } from './what-followed'
import '@/app/jobs/jobs.css'

export const metadata: Metadata = { title: 'Fault' }

/** One nonconformance: what opened it, what was decided and why, what followed, and who did each of these when. */
export default async function FaultPage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('job.read')
  const id = rowId((await params).id)
  const [shop, fault] = await Promise.all([readShop(), id === null ? null : readFault(id)])
  if (!fault) notFound()
  const { job, piece, bendRecord, disposition } = fault
  const { revision } = job
  const mayDecide = may(actor, 'fault.decide') && disposition === null
  const bars = mayDecide && piece && job.status === 'open' ? await readBarsForJob(job, revision) : []
  const moment = (at: Date) => formatDateTime(at.toISOString(), { locale: 'en-US', timeZone: shop.timeZone })
  const lot = piece?.stockPiece?.lot
  return (
    <>
      <PageHead
        kind={`Fault ${fault.number}, ${disposition ? dispositionNotes[disposition].name.toLowerCase() : 'open'}`}
        title={fault.description}
        trail={[
          { label: 'Faults', href: '/faults' },
          { label: job.number, href: `/jobs/${job.id}#faults` },
        ]}
      >
        Opened by {fault.openedBy.name}, {moment(fault.openedAt)}
      </PageHead>
      <div className="stack stack-loose">
        <Facts
          facts={[
            [
              'Part',
              <Link key="part" href={`/parts/${revision.part.id}?rev=${revision.letter}`}>
                {revision.part.number} revision {revision.letter}, {revision.part.name}
              </Link>,
            ],
            ['Customer', job.customer.name],
            [
              'Of',
              piece ? (
                <span key="piece">
                  <Link href={`/trace?piece=${piece.id}`}>Piece {piece.number}</Link>, {piece.status}
                  {bendRecord && `, at bend ${bendRecord.bendPosition}`}
                </span>
              ) : (
                'the whole job'
              ),
            ],
            ...(lot
              ? ([
                  [
                    'Tube',
                    <Link key="lot" href={`/stock/${lot.id}`}>
                      lot {lot.number}, heat {lot.heatNumber || 'not noted'}
                    </Link>,
                  ],
                ] as const)
              : []),
          ]}
        />
        {bendRecord && piece && (
          <Section title="The try that opened it">
            <TryLine
              record={bendRecord}
              pieceNumber={piece.number}
              wantedDeg={revision.bends[bendRecord.bendPosition - 1]?.angleDeg ?? 0}
              shop={shop}
            />
          </Section>
        )}
        {(fault.photos.length > 0 || may(actor, 'fault.write')) && (
          <Section title="Pictures">
            <Pictures files={fault.photos} of={fault.number} />
            {may(actor, 'fault.write') && <PictureForm faultId={fault.id} />}
          </Section>
        )}
        <Section title="Decision" id="decision">
          {disposition ? (
            <>
              <Verdict
                word={disposition === 'concession' ? 'conceded' : disposition === 'scrap' ? 'fail' : 'warn'}
                label={dispositionNotes[disposition].name}
              >
                {fault.whyText}
              </Verdict>
              <p className="muted small">
                Decided by {fault.decidedBy?.name ?? 'nobody named'}
                {fault.decidedAt && `, ${moment(fault.decidedAt)}`}
              </p>
            </>
          ) : mayDecide ? (
            <DecideForm
              id={fault.id}
              version={fault.version}
              ofPiece={piece !== null}
              bars={bars
                .filter(({ reservedForJobId }) => reservedForJobId === null)
                .map((bar) => ({
                  value: String(bar.id),
                  label: `${bar.isOffcut ? 'Offcut' : 'Bar'} ${bar.id}, ${formatLength(bar.lengthMm, shop.lengthUnit)}, heat ${bar.lot.heatNumber || 'not noted'}`,
                }))}
            />
          ) : (
            <Verdict word="waiting">the office decides; the piece stays set aside</Verdict>
          )}
        </Section>
        {disposition && (
          <Section title="What followed">
            <WhatFollowed fault={fault} shop={shop} />
          </Section>
        )}
        <Section
          title="History"
          aside={
            may(actor, 'audit.read') && (
              <Link href={`/audit?entity=Nonconformance&id=${fault.id}`}>In the audit trail</Link>
            )
          }
        >
          <ul className="ruled-list">
            {fault.history.map((line) => (
              <li key={String(line.id)}>
                {moment(line.at)}, {line.actorText} {line.action}: {line.detailText}
              </li>
            ))}
          </ul>
        </Section>
      </div>
    </>
  )
}
