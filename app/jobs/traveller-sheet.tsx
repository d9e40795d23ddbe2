import { QUIET_MODULES, qrPath } from '@/app/_paper/qr-path'
import { angleText, quantityText } from '@/app/_paper/quantity'
import type { TravellerBend, TravellerData, TravellerOperation } from '@/app/_paper/traveller-data'
import { Notice } from '@/app/_ui/notice'
import { formatDuration } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import { CAUTIONS } from '../_paper/cautions'

/** An empty box with its name, to write in by hand once printed. */
function Boxes({ labels }: { labels: readonly string[] }) {
  return (
    <div className="write-row">
      {labels.map((label) => (
        <span key={label} className="write-box">
          {label}
        </span>
      ))}
    </div>
  )
}

export function ScanSquare({ url, label }: { url: string; label: string }) {
  const { d, moduleCount } = qrPath(url)
  const whole = moduleCount + 2 * QUIET_MODULES
  return (
    <svg
      className="scan-square"
      viewBox={`${-QUIET_MODULES} ${-QUIET_MODULES} ${whole} ${whole}`}
      role="img"
      aria-label={label}
    >
      <rect x={-QUIET_MODULES} y={-QUIET_MODULES} width={whole} height={whole} fill="#fff" />
      <path d={d} fill="#000" />
    </svg>
  )
}

/** One bend's angles, the largest things on the sheet. */
function BendFigures({ bend, unit }: { bend: TravellerBend; unit: LengthUnit }) {
  const range = ({ lowDeg, highDeg }: { lowDeg: number; highDeg: number }) =>
    lowDeg === highDeg ? 'no range known' : `${angleText(lowDeg)} to ${angleText(highDeg)}`
  const where = quantityText({ lengthMm: bend.centreMarkMm }, unit)
  const cells = [
    {
      label: 'Load to, ram full down',
      main: angleText(bend.loadedAngleDeg),
      below: `ram travel ${quantityText({ lengthMm: bend.ramTravelMm }, unit).main}`,
    },
    {
      label: bend.afterMeltOut ? 'Expect at the press, ram back' : 'Expect, ram back',
      main: angleText(bend.atPress.expectedDeg),
      below: range(bend.atPress),
    },
    ...(bend.afterMeltOut
      ? [
          {
            label: 'Expect after melt-out, cold',
            main: angleText(bend.afterMeltOut.expectedDeg),
            below: range(bend.afterMeltOut),
          },
        ]
      : []),
    {
      label: 'Wanted',
      main: angleText(bend.wantedAngleDeg),
      below: `accept ${angleText(bend.wantedAngleDeg - bend.angleToleranceDeg)} to ${angleText(bend.wantedAngleDeg + bend.angleToleranceDeg)}`,
    },
  ]
  return (
    <div className="traveller-bend">
      <h4>
        Bend {bend.bendNumber}: centre mark {where.main} ({where.other}), turn the tube{' '}
        {angleText(bend.rotationDeg)}, radius {quantityText({ lengthMm: bend.finalRadiusMm }, unit).main},
        about {quantityText({ forceKn: bend.pressForceKn }, unit).main}
      </h4>
      <dl className="traveller-angles">
        {cells.map(({ label, main, below }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd className="set-point">{main}</dd>
            <dd>{below}</dd>
          </div>
        ))}
      </dl>
    </div>
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
      {made.map((bend) => (
        <BendFigures key={bend.bendNumber} bend={bend} unit={data.lengthUnit} />
      ))}
    </li>
  )
}

/** The marks, operations, trial and boxes of a traveller, as the screen shows and the browser prints them. */
export function TravellerSheet({ data }: { data: TravellerData }) {
  return (
    <>
      {data.stockLots.length === 0 && (
        <section className="section" aria-label="Stock">
          <h2>Stock</h2>
          <p>No lot is set apart yet. Write down what was taken.</p>
          <Boxes labels={['lot', 'heat number', 'certificate seen', 'place']} />
        </section>
      )}
      {data.marks.length > 0 && (
        <section className="section" aria-label="Marks to scribe">
          <h2>Marks to scribe</h2>
          <p>All from one end. {data.datumText}</p>
          <table className="table">
            <thead>
              <tr>
                <th scope="col">Mark</th>
                <th scope="col" className="numeric">
                  From the datum end
                </th>
                <th scope="col" className="numeric">
                  The same
                </th>
              </tr>
            </thead>
            <tbody>
              {[...data.marks]
                .sort((one, other) => one.atMm - other.atMm)
                .map((mark) => {
                  const { main, other } = quantityText({ lengthMm: mark.atMm }, data.lengthUnit)
                  return (
                    <tr key={`${mark.label} ${mark.atMm}`}>
                      <th scope="row" className="table-title">
                        {mark.label}
                      </th>
                      <td className="numeric mark-figure">{main}</td>
                      <td className="numeric">{other}</td>
                    </tr>
                  )
                })}
            </tbody>
          </table>
        </section>
      )}
      <section className="section" aria-label="Operations, in order">
        <h2>Operations, in order</h2>
        <ol className="plain-list">
          {data.operations.map((operation) => (
            <Operation key={operation.sequence} operation={operation} data={data} />
          ))}
        </ol>
        {data.rangeText && <p className="small">{data.rangeText}</p>}
      </section>
      {data.trialSteps.length > 0 && (
        <section className="section" aria-label="Trial piece">
          <h2>Trial piece, before the first good one</h2>
          <ol>
            {data.trialSteps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
          <div className="print-only">
            {[1, 2, 3].map((trial) => (
              <Boxes
                key={trial}
                labels={[
                  `trial ${trial}: loaded to °`,
                  'at the press °',
                  ...(data.bends[0]?.afterMeltOut ? ['after melt-out °'] : []),
                  'wanted − measured °',
                  'by, date',
                ]}
              />
            ))}
          </div>
        </section>
      )}
      {data.pieces.map((piece) => (
        <section key={piece.pieceNumber} className="section traveller-piece" aria-label={piece.pieceNumber}>
          <div className="traveller-piece-head">
            <div>
              <h2>Piece {piece.pieceNumber}</h2>
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
            {data.bends.map((bend) => (
              <div key={bend.bendNumber}>
                <p>
                  Bend {bend.bendNumber}, wanted {angleText(bend.wantedAngleDeg)}
                </p>
                <Boxes
                  labels={[
                    'loaded to °',
                    'at the press °',
                    ...(bend.afterMeltOut ? ['after melt-out °'] : []),
                    'radius',
                    'look, dye',
                    'gauge, by, date',
                  ]}
                />
              </div>
            ))}
            {data.operations.map((operation) => (
              <div key={operation.sequence} className="sign-off">
                <span>
                  {operation.sequence} {operation.title}
                </span>
                <Boxes
                  labels={[
                    'by',
                    'date',
                    'minutes',
                    'good / scrap',
                    ...(operation.isHoldPoint ? ['HOLD: second person'] : []),
                  ]}
                />
              </div>
            ))}
          </div>
        </section>
      ))}
    </>
  )
}
