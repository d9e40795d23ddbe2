import Link from 'next/link'
import { Verdict } from '@/app/_ui/verdict'
import { formatAngle } from '@/lib/core/format'
import { type BendState, bendStateWords } from '@/lib/records/bend-record/rules'
import { bendStates } from '@/lib/records/piece/rules'
import { stateMarks } from '../state-marks'
import type { JobView } from './job-view'

/** Pieces by bends. It scrolls in its own box, where its heads stay: forty pieces of six bends are read like three of two. */
export function PieceGrid({ view }: { view: JobView }) {
  const { job, revision, allows } = view
  const { bends } = revision
  const mayBench = allows('bench.read')
  return (
    <section className="piece-grid" aria-label="Where each bend of each piece stands">
      <table className="table">
        <thead>
          <tr>
            <th scope="col">Piece</th>
            {bends.map((bend, index) => (
              <th scope="col" key={`bend ${index + 1}`}>
                Bend {index + 1}, {formatAngle(bend.angleDeg)}
              </th>
            ))}
            <th scope="col">Piece is</th>
            <th scope="col">Lot, heat</th>
            <th scope="col">Certificate</th>
            <th scope="col">Trace</th>
          </tr>
        </thead>
        <tbody>
          {job.pieces.map((piece) => {
            const states = bendStates({ tries: piece.bendRecords }, bends.length)
            const lot = piece.stockPiece?.lot
            return (
              <tr key={piece.id}>
                <th scope="row">
                  {mayBench ? (
                    <Link className="bend-cell" href={`/bench/${piece.scanCode}`}>
                      <span className="visually-hidden">Piece </span>
                      {piece.number}
                    </Link>
                  ) : (
                    piece.number
                  )}
                </th>
                {states.map((state, index) => (
                  <td key={`bend ${index + 1}`} data-bend={index}>
                    <BendCell piece={piece} position={index + 1} state={state} />
                  </td>
                ))}
                <td>
                  {piece.status}
                  {piece.replaces && `, replaces ${piece.replaces.number}`}
                </td>
                <td>
                  {lot ? (
                    <Link href={`/stock/${lot.id}`}>
                      {lot.number}, {lot.heatNumber || 'heat not noted'}
                    </Link>
                  ) : (
                    <span className="muted">not cut yet</span>
                  )}
                </td>
                <td>
                  {lot?.certificateFileId ? (
                    <a href={`/files/${lot.certificateFileId}`} target="_blank" rel="noreferrer">
                      open<span className="visually-hidden"> the certificate of piece {piece.number}</span>
                    </a>
                  ) : (
                    <span className="muted">none</span>
                  )}
                </td>
                <td>
                  <Link href={`/trace?piece=${piece.id}`}>
                    trace<span className="visually-hidden"> piece {piece.number}</span>
                  </Link>
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </section>
  )
}

function BendCell({
  piece,
  position,
  state,
}: {
  piece: { number: number; bendRecords: readonly { bendPosition: number }[] }
  position: number
  state: BendState
}) {
  const verdict = <Verdict word={stateMarks[state]} label={bendStateWords[state]} />
  const isTried = piece.bendRecords.some(({ bendPosition }) => bendPosition === position)
  if (!isTried) return verdict
  return (
    <a className="bend-cell" href={`#p${piece.number}-b${position}`}>
      {verdict}
      <span className="visually-hidden">
        : tries at bend {position} of piece {piece.number}
      </span>
    </a>
  )
}
