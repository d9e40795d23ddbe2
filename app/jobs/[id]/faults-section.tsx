import Link from 'next/link'
import { FoldSection } from '@/app/_ui/fold'
import { Verdict } from '@/app/_ui/verdict'
import { DecideForm } from '@/app/faults/decide-form'
import { dispositionNotes } from '@/lib/core/inspection/disposition'
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
  const openCount = job.faults.filter(({ disposition }) => disposition === null).length
  const pieceOf = new Map(job.pieces.map(({ id, number }) => [id, number]))
  return (
    <FoldSection
      title="Faults"
      id="faults"
      summary={
        job.faults.length === 0
          ? 'none'
          : openCount > 0
            ? `${openCount} to decide`
            : `${job.faults.length}, all decided`
      }
      aside={<Link href="/faults">All faults</Link>}
      open={openCount > 0}
    >
      {job.faults.length === 0 && <p className="muted">No fault on this job.</p>}
      <div>
        {job.faults.map((fault) => (
          <article key={fault.id} className="fault" id={fault.number}>
            <p>
              <Link className="strong" href={`/faults/${fault.id}`}>
                {fault.number}
              </Link>
              , {fault.pieceId === null ? 'the whole job' : `piece ${pieceOf.get(fault.pieceId)}`}:{' '}
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
    </FoldSection>
  )
}
