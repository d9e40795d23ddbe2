import { formatNumber } from '@/lib/core/format'
import { inchFromMm, type LengthUnit, mmFromInch } from '@/lib/core/units'

/** The largest picture for the head of the papers: each of them carries it. */
export const mostLogoBytes = 1_000_000

/** A number as somebody would type it: nothing is lost by saving a form again. */
export function typedNumber(value: number | null): string {
  return value === null ? '' : formatNumber(value, { decimals: 10 })
}

/**
 * A length as somebody would type it, in the shop's unit. One that is no round number of inches was given in
 * millimetres and is written so, with its unit: saving a form again must not move it.
 */
export function typedLength(lengthMm: number | null, unit: LengthUnit): string {
  if (lengthMm === null) return ''
  if (unit === 'mm') return typedNumber(lengthMm)
  const inches = Number(inchFromMm(lengthMm).toPrecision(12))
  const text = formatNumber(inches, { decimals: 4 })
  return Math.abs(mmFromInch(Number(text)) - lengthMm) < 1e-9 ? text : `${typedNumber(lengthMm)} mm`
}
