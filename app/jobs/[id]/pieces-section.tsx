import Link from 'next/link'
import { FoldSection } from '@/app/_ui/fold'
import { numbersText } from '@/lib/records/job-end/rules'
import { hindrances, readyPieces } from '@/lib/records/progress/rules'
import { type JobView, wordsOf } from './job-view'
import { PieceGrid } from './piece-grid'
import { ReleaseForm } from './release-form'

/** Where each bend of each piece stands, and the release of those that are done. */
export function PiecesSection({ view }: { view: JobView }) {
  const { job, revision, allows } = view
  const { moment } = wordsOf(view)
  const standing = { pieces: job.pieces, faults: job.faults, bendCount: revision.bends.length }
  const ready = job.status === 'open' ? readyPieces(standing) : []
  const held = job.status === 'open' ? hindrances(standing) : []
  // Of pieces that nobody has touched the grid says enough.
  const untouched = new Set(
    job.pieces.filter(({ bendRecords }) => bendRecords.length === 0).map(({ number }) => number),
  )
  const begun = held.filter(({ number }) => !untouched.has(number))
  const count = (status: (typeof job.pieces)[number]['status']) =>
    job.pieces.filter((piece) => piece.status === status).length
  const summary = [
    `${count('released')} of ${job.quantity} released`,
    ready.length > 0 && `${ready.length} ready`,
    held.length > 0 && `${held.length} in work`,
    count('scrapped') > 0 && `${count('scrapped')} scrapped`,
  ]
    .filter(Boolean)
    .join(', ')
  return (
    <FoldSection title="Pieces and bends" id="pieces" summary={summary} open>
      <PieceGrid view={view} />
      {begun.length > 0 && (
        <details>
          <summary>
            Why {begun.length === 1 ? 'one piece is' : `${begun.length} pieces are`} not ready
          </summary>
          <ul className="ruled-list">
            {begun.map(({ number, why }) => (
              <li key={number}>
                Piece {number} {why.join('; ')}.
              </li>
            ))}
          </ul>
        </details>
      )}
      {allows('release.write') && ready.length > 0 && (
        <ReleaseForm
          key={ready.map(({ id }) => id).join()}
          jobId={job.id}
          pieces={ready.map(({ id, number }) => ({ id, number }))}
        />
      )}
      {job.releases.length > 0 && (
        <ul className="ruled-list">
          {job.releases.map((release) => (
            <li key={release.id}>
              <Link href={`/releases/${release.id}`}>{release.number}</Link>:{' '}
              {release.pieces.length === 1 ? 'piece' : 'pieces'}{' '}
              {numbersText(release.pieces.map(({ piece }) => piece.number))} released by {release.by.name},{' '}
              {moment(release.at)}
            </li>
          ))}
        </ul>
      )}
    </FoldSection>
  )
}
