'use client'

import { useState } from 'react'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import type { BenchTyped } from '@/lib/records/bend-record/schema'
import { newKey } from '../queue'

type Start = Extract<BenchTyped, { kind: 'start' }>
type Stop = Extract<BenchTyped, { kind: 'stop' }>

export type Keep = (entry: BenchTyped, label: string) => Promise<void>

function elapsedText(sinceMs: number, nowMs: number): string {
  const seconds = Math.max(0, Math.floor((nowMs - sinceMs) / 1000))
  const two = (count: number) => String(count).padStart(2, '0')
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`
}

/** A moment as a date field holds it, by this device's own clock. */
function localText(at: string): string {
  const date = new Date(at)
  return new Date(date.getTime() - date.getTimezoneOffset() * 60_000).toISOString().slice(0, 16)
}

/** The time alone for today's clock, with its day for one that was left running. */
function sinceText(startedAt: string, nowMs: number): string {
  const [day = '', time = ''] = localText(startedAt).split('T')
  return day === localText(new Date(nowMs).toISOString()).slice(0, 10) ? time : `${day}, ${time}`
}

/** One clock that runs: stopped now, or at the time it should have been. A stop that the shop refused is corrected here. */
export function RunningClock({
  clockKey,
  name,
  startedAt,
  nowMs,
  refused,
  keep,
}: {
  clockKey: string
  name: string
  startedAt: string
  nowMs: number | null
  refused: Stop | null
  keep: Keep
}) {
  const [stoppedAt, setStoppedAt] = useState(refused ? localText(refused.at) : '')
  const [reason, setReason] = useState(refused?.reasonText ?? '')
  const [errors, setErrors] = useState<{ at?: string; reason?: string }>({})
  const send = (at: string, reasonText: string) =>
    void keep(
      { kind: 'stop', clientKey: refused?.clientKey ?? newKey(), startKey: clockKey, at, reasonText },
      `stop of ${name}`,
    )
  const stopEarlier = () => {
    const at = new Date(stoppedAt)
    const found = {
      ...((Number.isNaN(at.getTime()) || at < new Date(startedAt)) && {
        at: `A time after ${localText(startedAt).replace('T', ' ')}, when it was started`,
      }),
      ...(reason.trim() === '' && { reason: 'Say why: it stands in the history' }),
    }
    setErrors(found)
    if (!found.at && !found.reason) send(at.toISOString(), reason)
  }
  return (
    <div className="stack stack-tight bench-clock">
      <div>
        {/* The server knows neither this device's time nor its zone: both are told once it runs here. */}
        <strong>{name}</strong> runs{nowMs !== null && ` since ${sinceText(startedAt, nowMs)}`}
        <div className="bench-time">
          {nowMs === null ? '0:00:00' : elapsedText(new Date(startedAt).getTime(), nowMs)}
        </div>
      </div>
      <Button big wide kind="primary" onClick={() => send(new Date().toISOString(), '')}>
        Stop: {name}
      </Button>
      <details open={refused !== null}>
        <summary className="check">It stopped earlier, I forgot</summary>
        <div className="fields">
          <TextField
            label="Stopped at"
            type="datetime-local"
            value={stoppedAt}
            error={errors.at}
            onChange={(event) => setStoppedAt(event.target.value)}
          />
          <TextField
            label="Why"
            value={reason}
            error={errors.reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </div>
        <Button big wide onClick={stopEarlier}>
          Stop it at that time
        </Button>
      </details>
    </div>
  )
}

/** A start that the shop refused, most often for the time of a device whose clock was wrong: sent again with the right one. */
export function RefusedStart({
  entry,
  name,
  label,
  keep,
}: {
  entry: Start
  name: string
  label: string
  keep: Keep
}) {
  const [startedAt, setStartedAt] = useState(localText(entry.at))
  const at = new Date(startedAt)
  const wrong = Number.isNaN(at.getTime())
  return (
    <div className="stack stack-tight bench-clock">
      <TextField
        label={`${name}: started at`}
        type="datetime-local"
        value={startedAt}
        error={wrong ? 'A day and a time' : undefined}
        onChange={(event) => setStartedAt(event.target.value)}
      />
      <Button big wide disabled={wrong} onClick={() => void keep({ ...entry, at: at.toISOString() }, label)}>
        Send the start corrected
      </Button>
    </div>
  )
}
