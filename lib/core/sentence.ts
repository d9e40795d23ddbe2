import { formatNumber } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import {
  FAHRENHEIT_PER_KELVIN,
  fahrenheitFromCelsius,
  inchFromMm,
  ksiFromMpa,
  type LengthUnit,
  MM_PER_FOOT,
  MM_PER_INCH,
  poundFromKg,
  pressTons,
} from '@/lib/core/units'

const fine = (value: number): string => String(Number(value.toFixed(3)))

/**
 * Quantities as the core's sentences hold them: in the program's own units and fine enough that they are rounded once
 * only, by `readSentence`, in the unit of whoever reads them.
 */
export const said = {
  mm: (lengthMm: number): string => `${fine(lengthMm)} mm`,
  kN: (forceKn: number): string => `${fine(forceKn)} kN`,
  mpa: (stressMPa: number): string => `${fine(stressMPa)} MPa`,
  kg: (massKg: number): string => `${fine(massKg)} kg`,
} as const

type Reading = Readonly<{
  unit: string
  of: (value: number) => number
  decimals: (value: number, wasWhole: boolean) => number
}>

/** Below a millimetre or a megapascal the next figure counts. */
const metric: Readonly<Record<string, Reading>> = {
  mm: { unit: 'mm', of: (mm) => mm, decimals: (mm) => (Math.abs(mm) < 1 ? 2 : 1) },
  kN: { unit: 'kN', of: (kn) => kn, decimals: () => 1 },
  MPa: { unit: 'MPa', of: (mpa) => mpa, decimals: (mpa) => (Math.abs(mpa) < 10 ? 2 : 0) },
  kg: { unit: 'kg', of: (kg) => kg, decimals: () => 2 },
}

/** A whole number of millimetres is somebody's round number: two places of an inch say as much. */
const imperial: Readonly<Record<string, Reading>> = {
  mm: { unit: 'in', of: inchFromMm, decimals: (_in, wasWhole) => (wasWhole ? 2 : 3) },
  'mm²': { unit: 'in²', of: (area) => area / MM_PER_INCH ** 2, decimals: () => 3 },
  m: { unit: 'ft', of: (m) => (m * 1000) / MM_PER_FOOT, decimals: () => 2 },
  kN: { unit: 'US ton', of: (kn) => kn / pressTons.usShort.kilonewtons, decimals: () => 2 },
  MPa: { unit: shopUnits.in.stress, of: ksiFromMpa, decimals: (ksi) => (Math.abs(ksi) < 1 ? 2 : 1) },
  kg: { unit: shopUnits.in.mass, of: poundFromKg, decimals: () => 2 },
}

const quantity = /(-?\d+(?:\.\d+)?)( × | by )?(-?\d+(?:\.\d+)?)? (mm²|mm|m|kN|MPa|kg)(?![\w²])/g

/** One temperature, or the two ends of a range. `within` before it or `an hour` behind it make it a difference. */
const temperature = /(within )?(?<![\w.–-])(-?\d+(?:\.\d+)?)( to |–)?(-?\d+(?:\.\d+)?)? °C( an hour)?(?!\w)/g

/** Thermometers of shops in inches read whole degrees Fahrenheit. */
function inFahrenheit(text: string): string {
  return text.replace(
    temperature,
    (
      all: string,
      within: string | undefined,
      first: string,
      between?: string,
      second?: string,
      hour?: string,
    ) => {
      if ((between === undefined) !== (second === undefined)) return all
      const read = (digits: string) =>
        formatNumber(
          (within ?? hour) ? Number(digits) * FAHRENHEIT_PER_KELVIN : fahrenheitFromCelsius(Number(digits)),
          {
            decimals: 0,
          },
        )
      return `${within ?? ''}${read(first)}${second === undefined ? '' : `${between}${read(second)}`} °F${hour ?? ''}`
    },
  )
}

/**
 * A sentence of the core in the units of a shop whose tape is in this unit. What it does not know as a quantity stays
 * as it is. `12.5 × 3.2 mm` is two lengths, `870 to 980 °C` two temperatures, `28 °C an hour` a difference.
 */
export function readSentence(text: string, lengthUnit: LengthUnit): string {
  const readings = lengthUnit === 'in' ? imperial : metric
  return (lengthUnit === 'in' ? inFahrenheit(text) : text).replace(
    quantity,
    (all: string, first: string, between: string | undefined, second: string | undefined, unit: string) => {
      const reading = readings[unit]
      if (!reading || (between === undefined) !== (second === undefined)) return all
      const read = (digits: string) => {
        const value = reading.of(Number(digits))
        return formatNumber(value, { decimals: reading.decimals(value, !digits.includes('.')) })
      }
      return `${read(first)}${second === undefined ? '' : `${between}${read(second)}`} ${reading.unit}`
    },
  )
}
