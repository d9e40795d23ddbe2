import {
  formatForce,
  formatLength,
  formatMass,
  formatNumber,
  formatStress,
  formatTemperature,
  THIN_SPACE,
} from '@/lib/core/format'
import { KG_PER_POUND, type LengthUnit, MM_PER_FOOT } from '@/lib/core/units'

/**
 * What a shop reads beside its lengths: where a tape is in inches, the scale is in pounds, the press's gauge in tons of
 * 2000 lbf, a certificate in ksi, the pot's thermometer in °F. Common practice, no source.
 */
export const shopUnits = {
  in: { length: 'in', mass: 'lb', force: 'usShort', stress: 'ksi', temperature: 'F' },
  mm: { length: 'mm', mass: 'kg', force: 'kN', stress: 'MPa', temperature: 'C' },
} as const satisfies Record<LengthUnit, unknown>

type Decimals = Readonly<{ decimals?: number; keepZeros?: boolean }>

/** Each quantity as a shop of this unit of length reads it, rounded once. Throws RangeError on what is no number. */
export function shopFormat(lengthUnit: LengthUnit) {
  const { mass, force, stress, temperature } = shopUnits[lengthUnit]
  return {
    length: (lengthMm: number) => formatLength(lengthMm, lengthUnit),
    mass: (massKg: number, decimals: Decimals = {}) => formatMass(massKg, { unit: mass, ...decimals }),
    force: (forceKn: number, decimals: Decimals = {}) =>
      formatForce(forceKn, { unit: force, decimals: lengthUnit === 'in' ? 2 : 1, ...decimals }),
    stress: (stressMPa: number, decimals: Decimals = {}) =>
      formatStress(stressMPa, { unit: stress, ...decimals }),
    temperature: (temperatureC: number) => formatTemperature(temperatureC, { unit: temperature }),
    massPerLength: (massKgPerM: number) =>
      lengthUnit === 'mm'
        ? `${formatNumber(massKgPerM, { decimals: 2 })}${THIN_SPACE}kg/m`
        : `${formatNumber((massKgPerM / KG_PER_POUND) * (MM_PER_FOOT / 1000), { decimals: 2 })}${THIN_SPACE}lb/ft`,
  }
}
