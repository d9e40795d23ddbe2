import { formatAngle, formatForce, formatLength, formatMass, formatNumber } from '@/lib/core/format'
import { fahrenheitFromCelsius, inchFromMm, type LengthUnit, poundFromKg } from '@/lib/core/units'

/** One thing to set or to expect, with its unit in the field's name. */
export type PaperQuantity =
  | { readonly lengthMm: number }
  | { readonly angleDeg: number }
  | { readonly massKg: number }
  | { readonly temperatureC: number }
  | { readonly forceKn: number }
  | { readonly ratioPct: number }
  | { readonly text: string }

/** The value in the shop's unit, and the same in the other where a hand may read either. */
export function quantityText(quantity: PaperQuantity, unit: LengthUnit): { main: string; other: string } {
  if ('lengthMm' in quantity) {
    const [mm, inch] = [
      formatLength(quantity.lengthMm, 'mm'),
      `${formatNumber(inchFromMm(quantity.lengthMm), { decimals: 3 })} in`,
    ]
    return unit === 'mm' ? { main: mm, other: inch } : { main: inch, other: mm }
  }
  if ('angleDeg' in quantity) return { main: angleText(quantity.angleDeg), other: '' }
  if ('massKg' in quantity)
    return {
      main: formatMass(quantity.massKg, { unit: 'kg', decimals: 2 }),
      other: `${formatNumber(poundFromKg(quantity.massKg), { decimals: 1 })} lb`,
    }
  if ('temperatureC' in quantity)
    return {
      main: `${formatNumber(quantity.temperatureC, { decimals: 0 })} °C`,
      other: `${formatNumber(fahrenheitFromCelsius(quantity.temperatureC), { decimals: 0 })} °F`,
    }
  if ('forceKn' in quantity)
    return { main: formatForce(quantity.forceKn, { unit: 'kN', decimals: 1 }), other: '' }
  if ('ratioPct' in quantity)
    return { main: `${formatNumber(quantity.ratioPct, { decimals: 2 })} %`, other: '' }
  return { main: quantity.text, other: '' }
}

/** An angle to a tenth of a degree, the zero kept, as it is read off the protractor. */
export function angleText(angleDeg: number): string {
  return formatAngle(angleDeg, { style: 'decimal', decimals: 1, keepZeros: true })
}
