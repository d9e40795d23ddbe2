import { formatNumber, formatPercent, formatStress, THIN_SPACE } from '@/lib/core/format'
import type { AlloyField } from '@/lib/core/materials/alloys'
import { shopUnits } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'

/** A strength or modulus the way the shop writes it. */
export function stressWords(stressMPa: number, lengthUnit: LengthUnit): string {
  return formatStress(stressMPa, { unit: shopUnits[lengthUnit].stress })
}

/** One value of an alloy with its unit. */
export function valueText(field: AlloyField, value: number, lengthUnit: LengthUnit): string {
  switch (field) {
    case 'poisson':
    case 'uniformStrain':
      return formatNumber(value, { decimals: 3 })
    case 'densityKgM3':
      return `${formatNumber(value, { decimals: 0 })}${THIN_SPACE}kg/m³`
    case 'elongationPct':
    case 'reductionOfAreaPct':
      return formatPercent(value / 100)
    default:
      return stressWords(value, lengthUnit)
  }
}
