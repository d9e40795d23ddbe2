'use client'

import { formatAngle } from '@/lib/core/format'
import { reAim } from '@/lib/core/statistics/re-aim'
import type { BendAim } from '@/lib/records/bend-record/read'
import { useBench } from '../bench-queue'
import { unsentReadings } from './unsent-readings'

/** What to bend to, as large as a phone shows it, and why it is not what was planned. */
export function SetPoints({
  aim: { now: answered, planned, line },
  codes,
  position,
  melts,
  tryCount,
}: {
  aim: BendAim
  /** Of the job's pieces: what this device holds of their tries at this bend counts too. */
  codes: readonly string[]
  position: number
  melts: boolean
  tryCount: number
}) {
  const { items } = useBench()
  const unsent = line ? unsentReadings(items, { codes, position, melts }) : []
  const now = line && unsent.length > 0 ? { ...answered, ...reAim(line, unsent) } : answered
  const show = (deg: number) => formatAngle(deg, { decimals: 1, keepZeros: true })
  return (
    <>
      <dl className="bench-points">
        <dt>Load to</dt>
        <dd>{show(now.loadedDeg)}</dd>
        <dt>Let go, read</dt>
        <dd>{show(now.atPressDeg)}</dd>
        {melts && <dt>After melt-out</dt>}
        {melts && <dd>{show(now.finalDeg)}</dd>}
      </dl>
      {unsent.length > 0 && (
        <p role="status">
          Corrected on this device by {unsent.length === 1 ? '1 try' : `${unsent.length} tries`} that the shop
          has not answered yet: load to <strong>{show(now.loadedDeg)}</strong>, the shop’s last word was{' '}
          {show(answered.loadedDeg)}.
        </p>
      )}
      {unsent.length === 0 && show(now.loadedDeg) !== show(planned.loadedDeg) && (
        <p>
          {tryCount === 0
            ? 'From what this job taught so far'
            : `After ${tryCount === 1 ? '1 try' : `${tryCount} tries`} here`}
          : aim <strong>{show(now.loadedDeg)}</strong> loaded, was {show(planned.loadedDeg)}. Springback ×{' '}
          {now.factor.toFixed(2)}, planned × {planned.factor.toFixed(2)}.
        </p>
      )}
    </>
  )
}
