import type { ReactNode } from 'react'
import { quantityText } from '@/app/_paper/quantity'
import type { TravellerData, TravellerOperation } from '@/app/_paper/traveller-data'
import { operationShowing, trialBoxes } from '@/app/_paper/traveller-words'
import { Notice } from '@/app/_ui/notice'
import { formatDuration } from '@/lib/core/format'
import { CAUTIONS } from '../_paper/cautions'
import { BendFigures } from './traveller-bends'
import { Boxes, Paper, ScanSquare } from './traveller-paper'
import { PieceSheet } from './traveller-piece'

/** A traveller as the screen shows and the browser prints it: the job's paper, then one for each piece. */
export function TravellerSheet({ data, children }: { data: TravellerData; children: ReactNode }) {
  const { job } = data
  return (
    <>
      {data.void && (
        <div className="void-stamp" aria-hidden="true">
          VOID
        </div>
      )}
      <Paper data={data} about={`Job ${job.jobNumber}`}>
        <div className="stack stack-loose">
          <div className="print-only">
            <div className="traveller-head">
              <div>
                <p className="traveller-title">Job {job.jobNumber}</p>
                <p className="traveller-subtitle">
                  {job.partNumber} revision {job.partRevision}, {job.partTitle}
                </p>
                <p>
                  {data.shopName}. Traveller issue {data.revision}, void once a later one is made.
                </p>
              </div>
              <ScanSquare url={job.benchUrl} label={`Job ${job.jobNumber}`} />
            </div>
          </div>
          {children}
          <Stock data={data} />
          {!operationShowing(data, 'marks') && data.marks.length > 0 && (
            <section className="section" aria-label="Marks to scribe">
              <h2>Marks to scribe</h2>
              <Marks data={data} />
            </section>
          )}
          <section className="section" aria-label="Operations, in order">
            <h2>Operations, in order</h2>
            <ol className="plain-list">
              {data.operations.map((operation) => (
                <Operation key={operation.sequence} operation={operation} data={data} />
              ))}
            </ol>
          </section>
          {!operationShowing(data, 'trial') && data.trialSteps.length > 0 && (
            <section className="section" aria-label="Trial piece">
              <h2>Trial piece, before the first good one</h2>
              <Trial data={data} />
            </section>
          )}
        </div>
      </Paper>
      {data.pieces.map((piece) => (
        <PieceSheet key={piece.pieceNumber} piece={piece} data={data} />
      ))}
    </>
  )
}

/** The lots set apart, or boxes to write down what was taken. */
function Stock({ data }: { data: TravellerData }) {
  return (
    <section className="section traveller-block" aria-label="Stock">
      <h2>Stock for this job</h2>
      {data.stockLots.length === 0 ? (
        <>
          <p>No lot is set apart yet.</p>
          <div className="print-only">
            <Boxes labels={['lot taken', 'heat number', 'certificate seen', 'place']} />
          </div>
        </>
      ) : (
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Lot</th>
              <th scope="col">Heat number</th>
              <th scope="col">Certificate</th>
              <th scope="col">Place</th>
            </tr>
          </thead>
          <tbody>
            {data.stockLots.map((lot) => (
              <tr key={lot.lotNumber}>
                <th scope="row" className="table-title">
                  {lot.lotNumber}
                </th>
                <td>{lot.heatNumber || 'not noted'}</td>
                <td>{lot.certificateText}</td>
                <td>{lot.placeText || 'not noted'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

function Marks({ data }: { data: TravellerData }) {
  return (
    <>
      <p>Measured from one end only. {data.datumText}</p>
      <table className="table traveller-marks">
        <thead>
          <tr>
            <th scope="col" className="numeric">
              From the datum end
            </th>
            <th scope="col" className="numeric">
              The same
            </th>
            <th scope="col">Mark</th>
            <th scope="col" className="print-only">
              Scribed
            </th>
          </tr>
        </thead>
        <tbody>
          {data.marks.map((mark) => {
            const { main, other } = quantityText({ lengthMm: mark.atMm }, data.lengthUnit)
            return (
              <tr key={`${mark.label} ${mark.atMm}`}>
                <td className="numeric mark-figure">{main}</td>
                <td className="numeric">{other}</td>
                <th scope="row" className="table-title">
                  {mark.label}
                </th>
                <td className="print-only">
                  <span className="tick-box" />
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </>
  )
}

function Trial({ data }: { data: TravellerData }) {
  const meltsOut = data.bends.some(({ afterMeltOut }) => afterMeltOut)
  return (
    <>
      <ol className="trial-steps">
        {data.trialSteps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <div className="print-only">
        {[1, 2, 3].map((trial) => (
          <Boxes key={trial} labels={trialBoxes(trial, meltsOut)} />
        ))}
      </div>
    </>
  )
}

function Operation({ operation, data }: { operation: TravellerOperation; data: TravellerData }) {
  const made = data.bends.filter(({ bendNumber }) => operation.bendNumbers?.includes(bendNumber))
  return (
    <li className="traveller-operation">
      <div className="traveller-operation-head">
        <strong className="set-point">{operation.sequence}</strong>
        <h3>{operation.title}</h3>
        {operation.plannedMin !== undefined && (
          <span className="muted small">planned {formatDuration(operation.plannedMin)}</span>
        )}
      </div>
      <p>{operation.instruction}</p>
      {operation.hazards.map((hazard) => (
        <Notice key={hazard} kind="caution" title={CAUTIONS[hazard][0]}>
          {CAUTIONS[hazard][1]}
        </Notice>
      ))}
      {operation.setPoints.length > 0 && (
        <dl className="set-points">
          {operation.setPoints.map(({ label, quantity }) => {
            const { main, other } = quantityText(quantity, data.lengthUnit)
            return (
              <div key={label}>
                <dt>{label}</dt>
                <dd className="set-point">{main}</dd>
                {other && <dd className="small">{other}</dd>}
              </div>
            )
          })}
        </dl>
      )}
      {operation.shows === 'marks' && data.marks.length > 0 && <Marks data={data} />}
      {operation.shows === 'trial' && data.trialSteps.length > 0 && <Trial data={data} />}
      {made.length > 0 && (
        <>
          <BendFigures bends={made} unit={data.lengthUnit} />
          {data.rangeText && <p className="small">{data.rangeText}</p>}
        </>
      )}
    </li>
  )
}
