import { Verdict } from '@/app/_ui/verdict'
import { Pictures } from '@/app/jobs/pictures'
import { tryReadings } from '@/app/jobs/try-readings'
import { formatAngle, formatDateTime } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import type { TryReason } from '@/lib/records/bend-record/rules'
import type { FaultTry } from '@/lib/records/fault/read'

const marks = { pass: 'pass', fail: 'fail', cannotSay: 'cannot-say', waiting: 'waiting' } as const

/** One try with all that was read of it, why it was judged so, and its pictures. */
export function TryLine({
  record,
  pieceNumber,
  wantedDeg,
  shop,
}: {
  record: FaultTry
  pieceNumber: number
  wantedDeg: number
  shop: { lengthUnit: LengthUnit; timeZone: string }
}) {
  const where = `bend ${record.bendPosition}, try ${record.tryNumber}`
  const reasons = (record.reasons as unknown as TryReason[]).filter(({ verdict }) => verdict !== 'pass')
  return (
    <div className="stack stack-tight">
      <p className="row">
        <strong>
          Piece {pieceNumber}, {where}
        </strong>
        <Verdict word={marks[record.verdict]}>
          {reasons.map(({ text }) => text.replace(/^(fail|cannot say): /, '')).join('; ') || undefined}
        </Verdict>
      </p>
      <p>{tryReadings(record, wantedDeg, shop.lengthUnit).join(', ')}</p>
      {record.noteText && <p>“{record.noteText}”</p>}
      <p className="muted small">
        {record.gaugeText || 'gauge not noted'} ±{formatAngle(record.gaugeUncertaintyDeg, { decimals: 2 })};{' '}
        {record.by.name},{' '}
        {formatDateTime(record.at.toISOString(), { locale: 'en-US', timeZone: shop.timeZone })}
      </p>
      <Pictures files={record.photos} of={`piece ${pieceNumber}, ${where}`} />
    </div>
  )
}
