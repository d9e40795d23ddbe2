import {
  formatAngle,
  formatDate,
  formatDuration,
  formatMoney,
  formatNumber,
  formatPercent,
} from '@/lib/core/format'
import { shopFormat } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'

export type FieldUnits = { lengthUnit: LengthUnit; currency: string }

/** What the screens call a field, where its own name taken apart says something else. */
const screenNames: Readonly<Record<string, string>> = {
  baseId: 'sheet',
  capacityKn: 'capacity',
  centrelineRadiusMm: 'centreline radius',
  couldHurt: 'a failure could hurt somebody',
  customerRef: 'the customer’s number',
  endCut: 'end of the part',
  generalTolerance: 'general tolerance',
  materialId: 'material and temper',
  notesText: 'notes',
  rotationDeg: 'turned about the tube',
  sectionToleranceFraction: 'flattening allowed',
  startCut: 'start of the part',
  straightAfterMm: 'last straight',
  straightBeforeMm: 'straight before',
  support: 'in the bore',
  supportSpanMm: 'span between supports',
  typicalQuantity: 'usual quantity',
  weldedAfter: 'welded afterwards',
}

const unitSuffix =
  /(?:KJPerKg|KgPerM3|KgM3|KgPerM|CentsPerKg|CentsPerM|CentsPerH|MPa|Mm4|Mm3|Mm2|Mm|Deg|Kg|Kn|Minutes|Days|Fraction|Factor|Ppm|Cents|Text|Pct|Id|On|At|C)$/

function plainName(key: string): string {
  const known = Object.hasOwn(screenNames, key) ? screenNames[key] : undefined
  if (known !== undefined) return known
  return key
    .replace(unitSuffix, '')
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .toLowerCase()
}

/** A field by its place in a record as people say it: bends, 1, angleDeg is 'bend 2, angle'. */
export function fieldName(path: readonly string[]): string {
  const parts: string[] = []
  path.forEach((key, index) => {
    if (/^\d+$/.test(key)) {
      const list = parts.pop() ?? ''
      parts.push(`${list.replace(/s$/, '')} ${Number(key) + 1}`.trim())
    } else if (index === 0 || key !== 'kind') parts.push(plainName(key) || key)
  })
  return parts.join(', ')
}

const isDay = (text: string) => /^\d{4}-\d{2}-\d{2}(T[\d:.]+Z)?$/.test(text)

/** A value as the shop reads it; what was typed stays as it was typed. */
export function fieldText(key: string, value: unknown, units: FieldUnits): string {
  if (value === null || value === undefined || value === '') return '–'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'string') {
    if (/(On|At|Until)$/.test(key) && isDay(value) && !Number.isNaN(Date.parse(value)))
      return formatDate(value.slice(0, 10), { locale: 'en-US', timeZone: 'UTC' })
    // A choice by its key: 'lowMelt'.
    return /^[a-z]+([A-Z][a-z]+)+$/.test(value) ? value.replace(/([A-Z])/g, ' $1').toLowerCase() : value
  }
  if (typeof value !== 'number' || !Number.isFinite(value)) return JSON.stringify(value) ?? '–'
  return numberText(key, value, units)
}

function numberText(key: string, value: number, { lengthUnit, currency }: FieldUnits): string {
  const shop = shopFormat(lengthUnit)
  if (key.endsWith('Cents') && Number.isSafeInteger(value))
    return formatMoney(value, { currency, locale: 'en-US' })
  if (key.endsWith('MPa')) return shop.stress(value)
  if (key.endsWith('Mm')) return shop.length(value)
  if (key.endsWith('Deg')) return formatAngle(value)
  if (key.endsWith('KJPerKg')) return `${formatNumber(value, { decimals: 4 })} kJ/kg`
  if (/(?:idus|temperature)C$/i.test(key)) return shop.temperature(value)
  if (key.endsWith('Kg')) return shop.mass(value, { decimals: 3 })
  if (key.endsWith('Kn')) return shop.force(value)
  if (key.endsWith('Minutes') && value >= 0) return formatDuration(value)
  if (key.endsWith('Fraction')) return formatPercent(value, { decimals: 2 })
  if (key.endsWith('Ppm')) return formatPercent(value / 1_000_000, { decimals: 3 })
  return formatNumber(value, { decimals: 4 })
}
