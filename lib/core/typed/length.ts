import { formatLength } from '@/lib/core/format'
import { gaugeWallMm } from '@/lib/core/materials/wall-gauge'
import type { Amount, Read } from '@/lib/core/typed/number-text'
import { cleanTyped, readAmount, refuse, signed, splitSign, splitUnit } from '@/lib/core/typed/number-text'
import type { LengthUnit } from '@/lib/core/units'
import { MM_PER_FOOT, MM_PER_INCH } from '@/lib/core/units'

/** Longest length read, mm. */
export const MAX_LENGTH_MM = 1e7

const unitMm: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: MM_PER_INCH,
  'in.': MM_PER_INCH,
  inch: MM_PER_INCH,
  inches: MM_PER_INCH,
  '"': MM_PER_INCH,
  ft: MM_PER_FOOT,
  'ft.': MM_PER_FOOT,
  foot: MM_PER_FOOT,
  feet: MM_PER_FOOT,
  "'": MM_PER_FOOT,
}

const GAUGE = /^(\d{1,2}) ?(?:ga|ga\.|gauge|bwg)(?: ?\(?bwg\)?)?$/i
const FEET_INCHES = /^([^'a-z"]+?) ?(?:'|ft\.?|feet|foot) ?-? ?([^'a-z"]+?) ?(?:"|in\.?|inch|inches)?$/i

const echoOf = (lengthMm: number, unit: LengthUnit): string => {
  const mm = formatLength(lengthMm, { unit: 'mm', decimals: 4 })
  const inch = formatLength(lengthMm, { unit: 'in', decimals: 4 })
  return unit === 'in' ? `${inch} (${mm})` : `${mm} (${inch})`
}

/**
 * A length as people type it: `38.1`, `38,1 mm`, `1-1/2"`, `1 1/2 in`, `3/4`, `2' 3-1/2"`, `11 ga`.
 * A bare number is in the shop's unit; a bare fraction is inches whatever the shop's unit; a gauge is the Birmingham gauge of tube walls,
 * refused with gauge: false where the field holds no wall.
 */
export function readLength(
  text: string,
  options: { defaultUnit: LengthUnit; allowNegative?: boolean; gauge?: boolean },
): Read<{ lengthMm: number }> {
  const cleaned = cleanTyped(text)
  if (!cleaned.ok) return cleaned
  const { sign, rest } = splitSign(cleaned.text)
  if (sign < 0 && !options.allowNegative) return refuse('A length can’t be less than 0')
  const gauge = GAUGE.exec(rest)
  if (gauge && options.gauge === false) return refuse('A gauge says a wall, not a length: type mm or inches')
  if (gauge) return readGauge(Number(gauge[1]), sign)
  const unsigned = readUnsigned(rest, options.defaultUnit)
  if (!unsigned.ok) return unsigned
  if (unsigned.lengthMm > MAX_LENGTH_MM) return refuse(`Too long: at most ${MAX_LENGTH_MM / 1000} m`)
  const lengthMm = signed(sign, unsigned.lengthMm)
  return { ok: true, lengthMm, echo: echoOf(lengthMm, unsigned.echoUnit) }
}

function readGauge(gauge: number, sign: 1 | -1): Read<{ lengthMm: number }> {
  if (sign < 0) return refuse('A gauge has no sign')
  const wallMm = gaugeWallMm(gauge)
  if (wallMm === undefined)
    return refuse(`There is no ${gauge} gauge in the Birmingham table: type the wall in mm or inches`)
  return { ok: true, lengthMm: wallMm, echo: `${gauge} gauge (Birmingham), ${echoOf(wallMm, 'mm')}` }
}

type Unsigned =
  | Readonly<{ ok: true; lengthMm: number; echoUnit: LengthUnit }>
  | Extract<Amount, { ok: false }>

function readUnsigned(rest: string, defaultUnit: LengthUnit): Unsigned {
  const feetInches = FEET_INCHES.exec(rest)
  if (feetInches) {
    const feet = readAmount(feetInches[1] ?? '')
    if (!feet.ok) return feet
    const inches = readAmount(feetInches[2] ?? '')
    if (!inches.ok) return inches
    if (inches.value >= 12) return refuse(`${inches.value} inches after feet: they run to less than 12`)
    return { ok: true, lengthMm: feet.value * MM_PER_FOOT + inches.value * MM_PER_INCH, echoUnit: 'in' }
  }
  const { amount, unit } = splitUnit(rest)
  const read = readAmount(amount)
  if (!read.ok) return read
  const unitName = unit || (read.isFraction ? 'in' : defaultUnit)
  const factor = Object.hasOwn(unitMm, unitName) ? unitMm[unitName] : undefined
  if (factor === undefined)
    return refuse(`"${unit}" is not a unit of length here: use mm, cm, m, in, ft or a gauge such as 11 ga`)
  return {
    ok: true,
    lengthMm: read.value * factor,
    echoUnit: factor < MM_PER_INCH || factor === 1000 ? 'mm' : 'in',
  }
}
