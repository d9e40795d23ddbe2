import type { UnsentReading } from '@/lib/core/statistics/re-aim'
import { readAngle } from '@/lib/core/typed/angle'
import type { QueuedEntry } from '../queue'

const degrees = (typed: string): number | null => {
  const read = typed.trim() === '' ? null : readAngle(typed)
  return read?.ok ? read.angleDeg : null
}

/** What this device holds of tries at one bend of a job and can learn from: loaded and final angle read, nothing torn, not refused. */
export function unsentReadings(
  items: readonly QueuedEntry[],
  of: { codes: readonly string[]; position: number; melts: boolean },
): UnsentReading[] {
  return items.flatMap(({ entry, refusal }) => {
    if (refusal || entry.kind !== 'try') return []
    if (entry.bendPosition !== of.position || !of.codes.includes(entry.scanCode)) return []
    if (entry.look === 'cracked') return []
    const loadedAngleDeg = degrees(entry.loadedAngleDeg)
    const finalAngleDeg = degrees(entry.angleFinalDeg) ?? (of.melts ? null : degrees(entry.angleAtPressDeg))
    const uncertaintyDeg = degrees(entry.gaugeUncertaintyDeg)
    if (loadedAngleDeg === null || finalAngleDeg === null || uncertaintyDeg === null) return []
    // As the shop counts it: half the expanded uncertainty, at least 0.05 degrees.
    return [{ loadedAngleDeg, finalAngleDeg, gaugeSdDeg: Math.max(uncertaintyDeg / 2, 0.05) }]
  })
}
