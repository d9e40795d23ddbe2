import { formatAngle } from '@/lib/core/format'
import type { BendAim } from '@/lib/records/bend-record/read'

/** What to bend to, as large as a phone shows it, and why it is not what was planned. */
export function SetPoints({
  aim: { now, planned },
  melts,
  tryCount,
}: {
  aim: BendAim
  melts: boolean
  tryCount: number
}) {
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
      {show(now.loadedDeg) !== show(planned.loadedDeg) && (
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
