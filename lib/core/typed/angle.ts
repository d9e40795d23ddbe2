import { formatAngle } from '@/lib/core/format'
import type { Read } from '@/lib/core/typed/number-text'
import { cleanTyped, readAmount, refuse, signed, splitSign, splitUnit } from '@/lib/core/typed/number-text'
import { degFromRad } from '@/lib/core/units'

const DEGREES = /^(?:°|d|deg|deg\.|degree|degrees)$/
const SEXAGESIMAL = /^([\d.,]+) ?(?:°|deg|d) ?([\d.,]+) ?(?:'|min|m)(?: ?([\d.,]+) ?(?:"|sec|s))?$/i

/** Largest angle read, degrees either way. */
export const MAX_ANGLE_DEG = 36_000

/** An angle as people type it: `30`, `30.5°`, `30d15'`, `30° 15' 20"`, `0.5 rad`. A bare number is degrees. */
export function readAngle(text: string): Read<{ angleDeg: number }> {
  const cleaned = cleanTyped(text)
  if (!cleaned.ok) return cleaned
  const { sign, rest } = splitSign(cleaned.text)
  const unsigned = readUnsigned(rest)
  if (!unsigned.ok) return unsigned
  if (unsigned.value > MAX_ANGLE_DEG) return refuse(`Too large: at most ${MAX_ANGLE_DEG}°`)
  const angleDeg = signed(sign, unsigned.value)
  const decimal = formatAngle(angleDeg, { decimals: 4 })
  return {
    ok: true,
    angleDeg,
    echo: unsigned.isPlain ? decimal : `${decimal} (${formatAngle(angleDeg, { style: 'sexagesimal' })})`,
  }
}

type Unsigned = Readonly<{ ok: true; value: number; isPlain: boolean } | { ok: false; message: string }>

function readUnsigned(rest: string): Unsigned {
  const parts = SEXAGESIMAL.exec(rest)
  if (parts) {
    const [degrees, minutes, seconds] = [parts[1], parts[2], parts[3] ?? '0'].map((part) =>
      readAmount(part ?? ''),
    )
    if (!degrees?.ok || !minutes?.ok || !seconds?.ok) return refuse(`"${rest}" is not an angle`)
    if (minutes.value >= 60 || seconds.value >= 60)
      return refuse('Minutes and seconds of angle run to less than 60')
    return { ok: true, value: degrees.value + minutes.value / 60 + seconds.value / 3600, isPlain: false }
  }
  const { amount, unit } = splitUnit(rest)
  const read = readAmount(amount)
  if (!read.ok) return read
  if (unit === '' || DEGREES.test(unit)) return { ok: true, value: read.value, isPlain: true }
  if (unit === 'rad') return { ok: true, value: degFromRad(read.value), isPlain: true }
  return refuse(`"${unit}" is not a unit of angle here: use degrees, 30d15' or rad`)
}
