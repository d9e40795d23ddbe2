import { formatAngle, formatLength } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import { bendLookWords, penetrantWords, type TryReadings } from '@/lib/records/bend-record/rules'

/** An error with its sign: '+0.3°'. */
export function errorText(errorDeg: number): string {
  const text = formatAngle(Math.abs(errorDeg), { decimals: 2 })
  return errorDeg === 0 ? text : `${errorDeg > 0 ? '+' : '−'}${text}`
}

const sizes = [
  ['radiusMm', 'radius'],
  ['widthOutsideMm', 'outer face'],
  ['widthMiddleMm', 'middle'],
  ['widthInsideMm', 'inner face'],
  ['heightMm', 'height'],
  ['wallOutsideMm', 'wall outside'],
  ['wallInsideMm', 'wall inside'],
] as const

/** All that was read of one try, in the order it is read at the bench; what was not measured is left out. */
export function tryReadings(
  record: Omit<TryReadings, 'gaugeUncertaintyDeg'>,
  wantedDeg: number,
  unit: LengthUnit,
): string[] {
  return [
    record.loadedAngleDeg !== null && `loaded ${formatAngle(record.loadedAngleDeg)}`,
    record.angleAtPressDeg !== null && `at the press ${formatAngle(record.angleAtPressDeg)}`,
    record.angleFinalDeg !== null &&
      `final ${formatAngle(record.angleFinalDeg)} (${errorText(record.angleFinalDeg - wantedDeg)})`,
    ...sizes.map(([key, name]) => {
      const mm = record[key]
      return mm !== null && `${name} ${formatLength(mm, unit)}`
    }),
    record.look && `look: ${bendLookWords[record.look]}`,
    record.dyePenetrant !== 'notDone' && `penetrant ${penetrantWords[record.dyePenetrant]}`,
  ].filter((text): text is string => typeof text === 'string')
}
