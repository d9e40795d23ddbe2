import Link from 'next/link'
import { Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { dispositionNotes } from '@/lib/core/inspection/disposition'
import { DecideForm } from './decide-form'
import { FaultForm } from './fault-form'
import { type JobView, wordsOf } from './job-view'

/** What did not conform, what was decided about it, and a new one by hand. */
export function FaultsSection({ view }: { view: JobView }) {
  const { job, revision, allows } = view
  const { moment, length } = wordsOf(view)
  const mayDecide = allows('fault.decide')
  const choices = view.bars
    .filter(({ reservedForJobId }) => reservedForJobId === null)
    .map((bar) => ({
      value: String(bar.id),
      label: `${bar.isOffcut ? 'Offcut' : 'Bar'} ${bar.id}, ${length(bar.lengthMm)}, heat ${bar.lot.heatNumber || 'not noted'}`,
    }))
  const pieceOf = new Map(job.pieces.map(({ id, number }) => [id, number]))
  return (
    <Section title="Faults" id="faults" aside={<Link href="/faults">All faults</Link>}>
      {job.faults.length === 0 && <p className="muted">No fault on this job.</p>}
      <div>
        {job.faults.map((fault) => (
          <article key={fault.id} className="fault" id={fault.number}>
            <p>
              <strong>{fault.number}</strong>,{' '}
              {fault.pieceId === null ? 'the whole job' : `piece ${pieceOf.get(fault.pieceId)}`}:{' '}
              {fault.description}
            </p>
            <p className="muted small">
              Opened by {fault.openedBy.name}, {moment(fault.openedAt)}
            </p>
            {fault.disposition ? (
              <>
                <p>
                  <Verdict
                    word={
                      fault.disposition === 'concession'
                        ? 'conceded'
                        : fault.disposition === 'scrap'
                          ? 'fail'
                          : 'warn'
                    }
                    label={dispositionNotes[fault.disposition].name}
                  >
                    {fault.whyText}
                  </Verdict>
                </p>
                <p className="muted small">
                  Decided by {fault.decidedBy?.name ?? 'nobody named'}
                  {fault.decidedAt && `, ${moment(fault.decidedAt)}`}. Then:{' '}
                  {dispositionNotes[fault.disposition].then}.
                </p>
              </>
            ) : mayDecide ? (
              <DecideForm
                id={fault.id}
                version={fault.version}
                ofPiece={fault.pieceId !== null}
                bars={choices}
              />
            ) : (
              <p>
                <Verdict word="waiting">the office decides</Verdict>
              </p>
            )}
          </article>
        ))}
      </div>
      {job.status === 'open' && allows('fault.write') && (
        <details>
          <summary>Enter a fault by hand</summary>
          <FaultForm
            key={job.faults.length}
            jobId={job.id}
            pieces={job.pieces
              .filter(({ status }) => status === 'open')
              .map(({ id, number }) => ({ value: String(id), label: `Piece ${number}` }))}
            bends={revision.bends.map((_, index) => ({
              value: String(index + 1),
              label: `Bend ${index + 1}`,
            }))}
          />
        </details>
      )}
    </Section>
  )
}
