import { notFound } from 'next/navigation'
import { PressAction } from '@/app/_shop/press-action'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { formatAngle, formatDate, formatDuration } from '@/lib/core/format'
import { dispositionNotes } from '@/lib/core/inspection/disposition'
import { type BendState, bendStateWords } from '@/lib/records/bend-record/rules'
import { readJob } from '@/lib/records/job/read'
import type { JobPlan } from '@/lib/records/job/rules'
import { bendStates, releaseRefusals } from '@/lib/records/piece/rules'
import { may, requireActor } from '@/lib/server/session'
import { reissueTravellerAction, releaseAction } from '../actions'
import { DecideForm } from './decide-form'

const marks = {
  none: 'waiting',
  waiting: 'waiting',
  pass: 'pass',
  fail: 'fail',
  cannotSay: 'cannot-say',
  conceded: 'conceded',
  again: 'waiting',
} as const satisfies Record<BendState, string>

export default async function JobPage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('job.read')
  const { id } = await params
  const job = /^[1-9]\d{0,8}$/.test(id) ? await readJob(Number(id)) : null
  if (!job) notFound()
  const plan = job.plan as unknown as JobPlan
  const { bends, part, letter } = job.revision
  const whole = job.faults.filter(({ pieceId }) => pieceId === null)
  const ready = job.pieces.filter(
    (piece) =>
      releaseRefusals(
        {
          status: piece.status,
          tries: piece.bendRecords,
          faults: [...job.faults.filter(({ pieceId }) => pieceId === piece.id), ...whole],
        },
        bends.length,
      ).length === 0,
  )
  const minutes = (logs: (typeof job.operations)[number]['logs']) =>
    logs.reduce((sum, { startedAt, endedAt }) => sum + (endedAt ? +endedAt - +startedAt : 0), 0) / 60_000
  return (
    <>
      <PageHead
        kind={`Job ${job.number}, ${job.status}`}
        title={`${part.name}, revision ${letter}`}
        trail={[
          { label: 'Jobs', href: '/jobs' },
          { label: part.number, href: `/parts/${part.id}` },
        ]}
        actions={
          may(actor, 'job.write') &&
          job.status === 'open' && (
            <PressAction
              label="Plan again and reissue"
              input={{ id: job.id, version: job.version }}
              action={reissueTravellerAction}
            />
          )
        }
      />
      <Facts
        facts={[
          ['Customer', job.customer.name],
          ['Due', formatDate(job.dueOn.toISOString(), { locale: 'en-US', timeZone: 'UTC' })],
          ['Pieces', String(job.quantity)],
          ['Traveller issue', String(job.travellerIssue)],
          ['Springback factor', `${plan.factor.value.toFixed(3)}, ${plan.factor.text}`],
        ]}
      />
      {plan.refusal && <Verdict word="refuse">{plan.refusal}</Verdict>}
      <Section title="Pieces and bends">
        <DataTable
          caption="Where each bend of each piece stands"
          captionHidden
          rows={job.pieces.map((piece) => ({
            ...piece,
            states: bendStates({ tries: piece.bendRecords }, bends.length),
          }))}
          rowKey={(piece) => String(piece.id)}
          columns={[
            { key: 'number', head: 'Piece', title: true, cell: (piece) => `Piece ${piece.number}` },
            ...bends.map((bend, index) => ({
              key: `bend-${bend.position}`,
              head: `Bend ${bend.position}, ${formatAngle(bend.angleDeg)}`,
              cell: (piece: { states: BendState[] }) => {
                const state = piece.states[index] ?? 'none'
                return <Verdict word={marks[state]} label={bendStateWords[state]} />
              },
            })),
            { key: 'status', head: 'Piece is', cell: (piece) => piece.status },
          ]}
        />
        {may(actor, 'release.write') && ready.length > 0 && (
          <PressAction
            kind="primary"
            label={`Release ${ready.length === 1 ? 'piece' : 'pieces'} ${ready.map(({ number }) => number).join(', ')}`}
            input={{ jobId: job.id, pieceIds: ready.map((piece) => piece.id), noteText: '' }}
            action={releaseAction}
          />
        )}
      </Section>
      <Section title="Faults">
        {job.faults.length === 0 && <p className="muted">No fault on this job.</p>}
        {job.faults.map((fault) => (
          <article key={fault.id} className="stack">
            <p>
              <strong>{fault.number}</strong> {fault.description}
            </p>
            {fault.disposition ? (
              <p>
                {dispositionNotes[fault.disposition].name}: {fault.whyText}
              </p>
            ) : may(actor, 'fault.decide') ? (
              <DecideForm id={fault.id} version={fault.version} />
            ) : (
              <p>Open: the office decides.</p>
            )}
          </article>
        ))}
      </Section>
      <Section title="Operations">
        <DataTable
          caption="Operations, planned and logged"
          captionHidden
          rows={job.operations}
          rowKey={(operation) => String(operation.id)}
          columns={[
            { key: 'name', head: 'Operation', title: true, cell: (operation) => operation.name },
            {
              key: 'planned',
              head: 'Planned',
              cell: (operation) =>
                formatDuration(
                  operation.plannedSetUpMinutes + operation.plannedRunMinutesPerPiece * job.quantity,
                ),
            },
            { key: 'logged', head: 'Logged', cell: (operation) => formatDuration(minutes(operation.logs)) },
          ]}
        />
      </Section>
    </>
  )
}
