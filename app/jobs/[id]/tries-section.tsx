import Link from 'next/link'
import { FoldSection } from '@/app/_ui/fold'
import { RunChart } from '@/app/_ui/run-chart'
import { Verdict } from '@/app/_ui/verdict'
import { formatAngle } from '@/lib/core/format'
import type { TryReason } from '@/lib/records/bend-record/rules'
import { angleErrors } from '@/lib/records/progress/rules'
import { Pictures } from '../pictures'
import { errorText, tryReadings } from '../try-readings'
import { CapabilityText } from './capability-text'
import { type JobView, wordsOf } from './job-view'

/** How many tries one chart can show side by side. */
const mostPoints = 40

/** Every try, the ones that failed too: as a chart of errors, and as a list by bend. */
export function TriesSection({ view }: { view: JobView }) {
  const { job, revision } = view
  const tolerance = revision.angleToleranceDeg
  const errors = angleErrors(
    job.pieces,
    revision.bends.map(({ angleDeg }) => angleDeg),
  )
  const shown = errors.slice(-mostPoints)
  const every = Math.ceil(shown.length / 10)
  return (
    <FoldSection
      title="Tries"
      id="tries"
      summary={triesText(job.pieces.flatMap(({ bendRecords }) => bendRecords))}
      open={view.openId === 'tries'}
    >
      {errors.length === 0 ? (
        <p className="muted">No bend is measured yet.</p>
      ) : (
        <>
          <RunChart
            label="Angle error of each try, in the order made"
            points={shown.map((one, index) => ({
              key: `${one.pieceNumber} ${one.bendPosition} ${one.tryNumber}`,
              label: index % every === 0 ? `${one.pieceNumber}.${one.bendPosition}` : '',
              value: one.errorDeg,
              text: `piece ${one.pieceNumber}, bend ${one.bendPosition}, try ${one.tryNumber}: ${errorText(one.errorDeg)}`,
            }))}
            band={{
              low: -tolerance,
              high: tolerance,
              lowText: errorText(-tolerance),
              highText: errorText(tolerance),
            }}
            nominal={{ value: 0, text: '0°' }}
            axisText={`Measured less wanted angle, each try in the order made${errors.length > mostPoints ? `, the last ${mostPoints} of ${errors.length}` : ''}. Below: piece.bend. The band is the tolerance, ±${formatAngle(tolerance)}.`}
          />
          <CapabilityText
            errorsDeg={errors.filter(({ tryNumber }) => tryNumber === 1).map(({ errorDeg }) => errorDeg)}
            toleranceDeg={tolerance}
          />
        </>
      )}
      {revision.bends.map((bend, index) => (
        <BendTries key={`bend-${index + 1}`} view={view} position={index + 1} angleDeg={bend.angleDeg} />
      ))}
    </FoldSection>
  )
}

function triesText(tries: readonly { verdict: string }[]): string {
  if (tries.length === 0) return 'none yet'
  const failed = tries.filter(({ verdict }) => verdict === 'fail').length
  const waiting = tries.filter(({ verdict }) => verdict === 'waiting').length
  return [
    `${tries.length} ${tries.length === 1 ? 'try' : 'tries'}`,
    failed > 0 && `${failed} failed`,
    waiting > 0 && `${waiting} to measure`,
  ]
    .filter(Boolean)
    .join(', ')
}

function BendTries({ view, position, angleDeg }: { view: JobView; position: number; angleDeg: number }) {
  const tries = view.job.pieces.flatMap((piece) =>
    piece.bendRecords
      .filter(({ bendPosition }) => bendPosition === position)
      .map((record) => ({ piece, record })),
  )
  if (tries.length === 0) return null
  const failed = tries.filter(({ record }) => record.verdict === 'fail').length
  return (
    <details className="stack" id={`bend-${position}`} data-bend={position - 1} open={tries.length <= 12}>
      <summary>
        <strong>
          Bend {position}, {formatAngle(angleDeg)}
        </strong>
        : {tries.length} {tries.length === 1 ? 'try' : 'tries'}
        {failed > 0 && `, ${failed} failed`}
      </summary>
      <ul className="try-list">
        {tries.map(({ piece, record }) => (
          <TryLine
            key={record.id}
            view={view}
            pieceNumber={piece.number}
            record={record}
            wantedDeg={angleDeg}
          />
        ))}
      </ul>
    </details>
  )
}

const marks = { pass: 'pass', fail: 'fail', cannotSay: 'cannot-say', waiting: 'waiting' } as const

type Record = JobView['job']['pieces'][number]['bendRecords'][number]

function TryLine({
  view,
  pieceNumber,
  record,
  wantedDeg,
}: {
  view: JobView
  pieceNumber: number
  record: Record
  wantedDeg: number
}) {
  const { moment } = wordsOf(view)
  const reasons = (record.reasons as unknown as TryReason[]).filter(({ verdict }) => verdict !== 'pass')
  const gauge = `${record.gaugeText || 'gauge not noted'} ±${formatAngle(record.gaugeUncertaintyDeg, { decimals: 2 })}`
  return (
    <li id={record.tryNumber === 1 ? `p${pieceNumber}-b${record.bendPosition}` : undefined}>
      <span className="strong">
        Piece {pieceNumber}, try {record.tryNumber}
      </span>
      <Verdict word={marks[record.verdict]}>
        {reasons.map(({ text }) => text.replace(/^(fail|cannot say): /, '')).join('; ') || undefined}
      </Verdict>
      <span>{tryReadings(record, wantedDeg, view.shop.lengthUnit).join(', ')}</span>
      <span className="muted small">
        {gauge}; {record.by.name}, {moment(record.at)}
      </span>
      {record.faults.map((fault) => (
        <Link key={fault.number} href={`/faults/${fault.id}`}>
          {fault.number}
        </Link>
      ))}
      <Pictures
        files={record.photos}
        of={`piece ${pieceNumber}, bend ${record.bendPosition}, try ${record.tryNumber}`}
      />
      {record.noteText && <span>“{record.noteText}”</span>}
    </li>
  )
}
