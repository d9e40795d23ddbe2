import { formatAngle, formatNumber } from '@/lib/core/format'
import { shopFormat } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'

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
  const other = unit === 'mm' ? 'in' : 'mm'
  const inBoth = (say: (of: ReturnType<typeof shopFormat>) => string) => ({
    main: say(shopFormat(unit)),
    other: say(shopFormat(other)),
  })
  if ('lengthMm' in quantity) return inBoth((of) => of.length(quantity.lengthMm))
  if ('angleDeg' in quantity) return { main: angleText(quantity.angleDeg), other: '' }
  if ('massKg' in quantity) return inBoth((of) => of.mass(quantity.massKg))
  if ('temperatureC' in quantity) return inBoth((of) => of.temperature(quantity.temperatureC))
  if ('forceKn' in quantity) return inBoth((of) => of.force(quantity.forceKn))
  if ('ratioPct' in quantity)
    return { main: `${formatNumber(quantity.ratioPct, { decimals: 2 })} %`, other: '' }
  return { main: quantity.text, other: '' }
}

/** An angle to a tenth of a degree, the zero kept, as it is read off the protractor. */
export function angleText(angleDeg: number): string {
  return formatAngle(angleDeg, { style: 'decimal', decimals: 1, keepZeros: true })
}
