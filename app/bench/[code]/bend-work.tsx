import { LinkButton } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { Verdict } from '@/app/_ui/verdict'
import { Pictures } from '@/app/jobs/pictures'
import {
  type BendState,
  bendStateWords,
  newTryRefusal,
  type TryReason,
} from '@/lib/records/bend-record/rules'
import type { BenchPiece } from '@/lib/records/piece/read'
import { Photo } from './photo'
import { type Readings, TryForm } from './try-form'

type Kept = BenchPiece['bendRecords'][number]

/** What a waiting try was read as, as text to go on from; the unit stands with each length. */
function readingsOf(record: Kept): Readings {
  const angle = (deg: number | null) => (deg === null ? '' : String(Number(deg.toFixed(4))))
  const length = (mm: number | null) => (mm === null ? '' : `${Number(mm.toFixed(4))} mm`)
  return {
    loadedAngleDeg: angle(record.loadedAngleDeg),
    angleAtPressDeg: angle(record.angleAtPressDeg),
    angleFinalDeg: angle(record.angleFinalDeg),
    radiusMm: length(record.radiusMm),
    widthOutsideMm: length(record.widthOutsideMm),
    widthMiddleMm: length(record.widthMiddleMm),
    widthInsideMm: length(record.widthInsideMm),
    heightMm: length(record.heightMm),
    wallOutsideMm: length(record.wallOutsideMm),
    wallInsideMm: length(record.wallInsideMm),
    look: record.look ?? '',
    dyePenetrant: record.dyePenetrant,
    gaugeText: record.gaugeText,
    gaugeUncertaintyDeg: angle(record.gaugeUncertaintyDeg),
    noteText: record.noteText,
  }
}

export const triesOf = (piece: BenchPiece, position: number) =>
  piece.bendRecords.filter((record) => record.bendPosition === position)

/** What came of the tries at one bend, and the next reading. */
export function BendWork({
  piece,
  position,
  state,
  mayLog,
  form,
  label,
}: {
  piece: BenchPiece
  position: number
  state: BendState
  mayLog: boolean
  form: Omit<Parameters<typeof TryForm>[0], 'completes' | 'label'>
  label: string
}) {
  const tries = triesOf(piece, position)
  const waiting = tries.find((record) => record.verdict === 'waiting')
  const last = tries.at(-1)
  const what = `bend ${position} of ${label}`
  const fault = last?.faults.find(({ disposition }) => disposition === null)
  return (
    <>
      {fault && (
        <Notice
          kind="stop"
          title={`Set this piece aside: ${fault.number} is open`}
          actions={<LinkButton href={`/faults/${fault.id}`}>Open {fault.number}</LinkButton>}
        >
          The office decides first what becomes of it.
        </Notice>
      )}
      {tries.length > 0 && (
        <ul className="ruled-list" aria-label="Tries so far">
          {tries.toReversed().map((record) => (
            <li key={record.id}>
              <Verdict
                word={record.verdict === 'cannotSay' ? 'cannot-say' : record.verdict}
                label={`Try ${record.tryNumber}, ${bendStateWords[record.verdict]}`}
              >
                {(record.reasons as unknown as TryReason[]).map(({ text }) => text).join('; ')}
              </Verdict>
              <Pictures files={record.photos} of={`try ${record.tryNumber} at ${what}`} />
            </li>
          ))}
        </ul>
      )}
      {mayLog && (waiting || newTryRefusal(state) === null) ? (
        <TryForm
          key={`${position}-${tries.length}-${waiting?.clientKey ?? ''}`}
          {...form}
          label={waiting ? `the rest of the try at ${what}` : `the try at ${what}`}
          completes={waiting ? { key: waiting.clientKey, readings: readingsOf(waiting) } : null}
        />
      ) : (
        <p className="muted">{newTryRefusal(state)}</p>
      )}
      {mayLog && last && (
        <Photo key={last.clientKey} recordKey={last.clientKey} label={`picture of ${what}`} />
      )}
    </>
  )
}
