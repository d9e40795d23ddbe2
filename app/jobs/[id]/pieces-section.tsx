import Link from 'next/link'
import { PressAction } from '@/app/_shop/press-action'
import { DataTable } from '@/app/_ui/data-table'
import { Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { formatAngle } from '@/lib/core/format'
import { type BendState, bendStateWords } from '@/lib/records/bend-record/rules'
import { numbersText } from '@/lib/records/job-end/rules'
import { bendStates } from '@/lib/records/piece/rules'
import { readyPieces } from '@/lib/records/progress/rules'
import { releaseAction } from '../actions'
import { type JobView, stateMarks, wordsOf } from './job-view'

/** Where each bend of each piece stands, and the release of those that are done. */
export function PiecesSection({ view }: { view: JobView }) {
  const { job, revision, allows } = view
  const { moment } = wordsOf(view)
  const { bends } = revision
  const rows = job.pieces.map((piece) => ({
    ...piece,
    states: bendStates({ tries: piece.bendRecords }, bends.length),
  }))
  type Row = (typeof rows)[number]
  const ready =
    job.status === 'open'
      ? readyPieces({ pieces: job.pieces, faults: job.faults, bendCount: bends.length })
      : []
  const mayBench = allows('bench.read')
  return (
    <Section title="Pieces and bends" id="pieces">
      <DataTable
        caption="Where each bend of each piece stands"
        captionHidden
        rows={rows}
        rowKey={(piece) => String(piece.id)}
        columns={[
          {
            key: 'number',
            head: 'Piece',
            title: true,
            cell: (piece) =>
              mayBench ? (
                <Link className="bend-cell" href={`/bench/${piece.scanCode}`}>
                  Piece {piece.number}
                </Link>
              ) : (
                `Piece ${piece.number}`
              ),
          },
          ...bends.map((bend, index) => ({
            key: `bend-${index + 1}`,
            head: `Bend ${index + 1}, ${formatAngle(bend.angleDeg)}`,
            cell: (piece: Row) => <BendCell piece={piece} position={index + 1} />,
          })),
          {
            key: 'heat',
            head: 'Lot, heat',
            cell: (piece) =>
              piece.stockPiece ? (
                <Link href={`/stock/${piece.stockPiece.lot.id}`}>
                  {piece.stockPiece.lot.number}, {piece.stockPiece.lot.heatNumber || 'heat not noted'}
                </Link>
              ) : (
                <span className="muted">not cut yet</span>
              ),
          },
          {
            key: 'certificate',
            head: 'Certificate',
            cell: (piece) =>
              piece.stockPiece?.lot.certificateFileId ? (
                <a href={`/files/${piece.stockPiece.lot.certificateFileId}`} target="_blank" rel="noreferrer">
                  open<span className="visually-hidden"> the certificate of piece {piece.number}</span>
                </a>
              ) : (
                <span className="muted">none</span>
              ),
          },
          {
            key: 'status',
            head: 'Piece is',
            cell: (piece) => `${piece.status}${piece.replaces ? `, replaces ${piece.replaces.number}` : ''}`,
          },
          {
            key: 'trace',
            head: 'Trace',
            cell: (piece) => (
              <Link href={`/trace?piece=${piece.id}`}>
                trace<span className="visually-hidden"> piece {piece.number}</span>
              </Link>
            ),
          },
        ]}
      />
      {allows('release.write') && ready.length > 0 && (
        <PressAction
          kind="primary"
          label={`Release ${ready.length === 1 ? 'piece' : 'pieces'} ${numbersText(ready.map(({ number }) => number))}`}
          input={{ jobId: job.id, pieceIds: ready.map((piece) => piece.id), noteText: '' }}
          action={releaseAction}
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
    </Section>
  )
}

function BendCell({
  piece,
  position,
}: {
  piece: { number: number; states: readonly BendState[]; bendRecords: readonly { bendPosition: number }[] }
  position: number
}) {
  const state = piece.states[position - 1] ?? 'none'
  const verdict = <Verdict word={stateMarks[state]} label={bendStateWords[state]} />
  const tried = piece.bendRecords.some(({ bendPosition }) => bendPosition === position)
  return tried ? (
    <a className="bend-cell" href={`#p${piece.number}-b${position}`} data-bend={position - 1}>
      {verdict}
      <span className="visually-hidden">
        : tries at bend {position} of piece {piece.number}
      </span>
    </a>
  ) : (
    <span data-bend={position - 1}>{verdict}</span>
  )
}
