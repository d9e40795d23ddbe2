'use client'

import { Button, LinkButton } from '@/app/_ui/button'
import { Mark } from '@/app/_ui/marks'
import type { QueuedEntry } from './queue'

/** What no hand typed: keys, and what the form stands on before anything is read. */
const notShown = new Set([
  ...['kind', 'clientKey', 'recordKey', 'startKey', 'scanCode', 'base64', 'name', 'operationId', 'pieceId'],
  ...['bendPosition', 'targetAtPressDeg', 'gaugeText', 'gaugeUncertaintyDeg'],
])

/** What was typed, a line of names and values. */
function typedText(item: QueuedEntry): string {
  return Object.entries(item.entry)
    .filter(([name, value]) => !notShown.has(name) && value !== '' && value !== null && value !== 'notDone')
    .map(([name, value]) => `${plainName(name)} ${value}`)
    .join(', ')
}

/** The reason at each field, or the one of the whole entry. */
function whyText({ refusal }: QueuedEntry): string {
  const reasons = Object.entries(refusal?.fields ?? {}).map(
    ([name, reason]) => `${plainName(name)}: ${reason}`,
  )
  return reasons.join('; ') || (refusal?.message ?? '')
}

/** 'angleAtPressDeg' as it is said: 'angle at press'. */
function plainName(name: string): string {
  return name
    .replace(/(Deg|Mm|Text)$/, '')
    .replace(/([A-Z])/g, ' $1')
    .toLowerCase()
}

/** The time of day, with its day where that is not today. */
function timeText(at: string): string {
  const date = new Date(at)
  const time = date.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })
  return date.toDateString() === new Date().toDateString() ? time : `${time} on ${date.toDateString()}`
}

/** What this device still holds: how many wait, and each that the shop refused, with its reason. */
export function WaitingBar({
  items,
  userId,
  trouble,
  screenKept,
  asOf,
  onSend,
  onDrop,
}: {
  items: readonly QueuedEntry[]
  userId: number
  trouble: string | null
  /** Whether this screen loads again without a connection. */
  screenKept: boolean
  /** Since when this screen is a copy kept on the device; null: it is the shop's own answer. */
  asOf: string | null
  onSend: () => void
  onDrop: (item: QueuedEntry) => void
}) {
  const refused = items.filter(({ refusal }) => refusal !== null)
  const waiting = items.filter(({ refusal }) => refusal === null)
  const heldBack = waiting.filter(({ heldBack }) => heldBack !== undefined)
  const others = waiting.filter((item) => item.userId !== userId).length
  return (
    <div className="bench-waiting" role="status">
      {asOf !== null && (
        <div className="bench-waiting-line">
          <Mark name="wait" />
          <span>
            <strong>As of {timeText(asOf)}, no connection.</strong> What is logged here is kept on this
            device.
          </span>
          <Button onClick={() => window.location.reload()}>Load it anew</Button>
        </div>
      )}
      {waiting.length > 0 && (
        <div className="bench-waiting-line">
          <Mark name="wait" />
          <span>
            <strong>{waiting.length === 1 ? '1 entry' : `${waiting.length} entries`} not sent yet.</strong>{' '}
            Kept on this device. {trouble}
            {trouble !== null && !screenKept && asOf === null && (
              <> Leave this screen open: it does not load again without a connection.</>
            )}
            {others > 0 && ` ${others} of them by somebody else: sent when they sign in here.`}
          </span>
          <Button onClick={onSend}>Send now</Button>
        </div>
      )}
      {heldBack.map((item) => (
        <div className="bench-waiting-line" key={item.key}>
          <Mark name="wait" />
          <span>
            <strong>Held back: {item.label}.</strong> {item.heldBack}
          </span>
          <Button kind="stop" onClick={() => onDrop(item)} aria-label={`Drop: ${item.label}`}>
            Drop it
          </Button>
        </div>
      ))}
      {refused.map((item) => (
        <div className="bench-waiting-line bench-refused" key={item.key}>
          <Mark name="cross" />
          <span>
            <strong>Not kept: {item.label}.</strong> {whyText(item)}
            {item.entry.kind !== 'photo' && (
              <span className="bench-typed">You typed: {typedText(item) || 'nothing'}</span>
            )}
          </span>
          {item.entry.kind === 'try' && item.userId === userId && (
            <LinkButton href={`/bench/${item.entry.scanCode}?bend=${item.entry.bendPosition}`}>
              Correct it
            </LinkButton>
          )}
          <Button kind="stop" onClick={() => onDrop(item)} aria-label={`Drop: ${item.label}`}>
            Drop it
          </Button>
        </div>
      ))}
    </div>
  )
}
