import { formatDuration } from '@/lib/core/format'
import type { Read } from '@/lib/core/typed/number-text'
import { cleanTyped, readAmount, refuse } from '@/lib/core/typed/number-text'

const MINUTES_PER_HOUR = 60
const LONGEST_MINUTES = 10_000 * MINUTES_PER_HOUR

const CLOCK = /^(\d{1,5}):([0-5]\d)$/
const HOURS_MINUTES = /^(\d{1,5}) ?(?:h|hr|hrs|hours?) ?(\d{1,2}) ?(?:m|min|mins|minutes?)?$/i
const ONE_UNIT = /^([\d.,/ -]+?) ?([a-z]*)\.?$/i

const minutesPer: Readonly<Record<string, number>> = {
  h: 60,
  hr: 60,
  hrs: 60,
  hour: 60,
  hours: 60,
  m: 1,
  min: 1,
  mins: 1,
  minute: 1,
  minutes: 1,
  s: 1 / 60,
  sec: 1 / 60,
  second: 1 / 60,
  seconds: 1 / 60,
}

/** A duration: `1h20`, `1:20` (hours and minutes), `1.5 h`, `80 min`, `45 s`. A bare number is minutes unless said otherwise. */
export function readDuration(
  text: string,
  options: { defaultUnit?: 'min' | 'h' } = {},
): Read<{ durationMinutes: number }> {
  const cleaned = cleanTyped(text)
  if (!cleaned.ok) return cleaned
  if (cleaned.text.startsWith('-')) return refuse('A duration can’t be less than 0')
  const pair = CLOCK.exec(cleaned.text) ?? HOURS_MINUTES.exec(cleaned.text)
  if (pair) {
    const minutes = Number(pair[2])
    if (minutes >= MINUTES_PER_HOUR) return refuse('Minutes after hours run to less than 60')
    return accept(Number(pair[1]) * MINUTES_PER_HOUR + minutes)
  }
  const single = ONE_UNIT.exec(cleaned.text)
  if (!single) return refuse(`"${cleaned.text}" is not a duration: type 1h20, 1:20 or 80 min`)
  const read = readAmount(single[1] ?? '')
  if (!read.ok) return read
  const unit = (single[2] || (options.defaultUnit ?? 'min')).toLowerCase()
  const factor = Object.hasOwn(minutesPer, unit) ? minutesPer[unit] : undefined
  return factor === undefined
    ? refuse(`"${unit}" is not a unit of time here: use h, min or s`)
    : accept(read.value * factor)
}

function accept(durationMinutes: number): Read<{ durationMinutes: number }> {
  if (durationMinutes > LONGEST_MINUTES) return refuse('Too long: at most 10 000 h')
  return { ok: true, durationMinutes, echo: formatDuration(durationMinutes) }
}
