import type { TravellerData, TravellerPiece } from '@/app/_paper/traveller-data'
import { bendBoxes, SIGN_OFF_HEADS } from '@/app/_paper/traveller-words'
import { BendFigures } from './traveller-bends'
import { Boxes, Paper, ScanSquare } from './traveller-paper'

/** One piece's paper: its figures again, and boxes for every try, for what was measured and for who did what. */
export function PieceSheet({ piece, data }: { piece: TravellerPiece; data: TravellerData }) {
  const { job, part } = data
  return (
    <div className="traveller-piece">
      <Paper data={data} about={`Piece ${piece.pieceNumber}`}>
        <section className="section" aria-label={piece.pieceNumber}>
          <div className="traveller-head">
            <div>
              <h2 className="traveller-title">Piece {piece.pieceNumber}</h2>
              <p className="traveller-subtitle print-only">
                {job.partNumber} revision {job.partRevision}, {job.partTitle}
              </p>
              <p className="print-only">
                {part.sectionText}, {part.materialText}, due {job.dueOn}
              </p>
              <p>
                {piece.stockLotNumber
                  ? `Lot ${piece.stockLotNumber}, heat ${piece.heatNumber || 'not noted'}`
                  : 'Not cut yet.'}
              </p>
            </div>
            <a href={new URL(piece.benchUrl).pathname}>
              <ScanSquare url={piece.benchUrl} label={`Bench screen of piece ${piece.pieceNumber}`} />
            </a>
          </div>
          <div className="print-only">
            {!piece.stockLotNumber && <Boxes labels={['stock lot', 'heat number', 'cut by, date']} />}
            {data.bends.map((bend) => {
              const { tries, finished } = bendBoxes(bend, data)
              return (
                <div key={bend.bendNumber} className="traveller-block">
                  <BendFigures bends={[bend]} unit={data.lengthUnit} />
                  {tries.map((labels) => (
                    <Boxes key={labels[0]} labels={labels} />
                  ))}
                  <Boxes labels={finished} />
                </div>
              )
            })}
            {data.bends.length > 0 && <p className="small">Every try is written down, the bad ones too.</p>}
            <SignOff data={data} />
            <Boxes labels={['remarks, and what was out of the ordinary']} />
          </div>
        </section>
      </Paper>
    </div>
  )
}

function SignOff({ data }: { data: TravellerData }) {
  const holds = data.operations.some(({ isHoldPoint }) => isHoldPoint)
  const heads = holds ? SIGN_OFF_HEADS : SIGN_OFF_HEADS.slice(0, -1)
  return (
    <table className="sign-off">
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {data.operations.map((operation) => (
          <tr key={operation.sequence}>
            <th scope="row">
              {operation.sequence} {operation.title}
            </th>
            <td />
            <td />
            <td />
            <td />
            {holds && <td>{operation.isHoldPoint ? 'HOLD' : '–'}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
