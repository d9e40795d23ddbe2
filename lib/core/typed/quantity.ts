import { formatMass, formatPercent, formatStress, formatTemperature } from '@/lib/core/format'
import type { Read } from '@/lib/core/typed/number-text'
import { cleanTyped, readAmount, refuse, signed, splitSign, splitUnit } from '@/lib/core/typed/number-text'
import { celsiusFromFahrenheit, KELVIN_AT_ZERO_CELSIUS, KG_PER_POUND, MPA_PER_KSI } from '@/lib/core/units'

type Typed = Readonly<{ ok: true; value: number; unit: string } | { ok: false; message: string }>

/** A signed number and the unit after it, lower case, or the unit to take where none was typed. */
function readWithUnit(text: string, defaultUnit: string): Typed {
  const cleaned = cleanTyped(text)
  if (!cleaned.ok) return cleaned
  const { sign, rest } = splitSign(cleaned.text)
  const { amount, unit } = splitUnit(rest)
  const read = readAmount(amount)
  if (!read.ok) return read
  if (read.value > 1e9) return refuse('Too large')
  return {
    ok: true,
    value: signed(sign, read.value),
    unit: (unit || defaultUnit).replace(/\.$/, '').toLowerCase(),
  }
}

const factorOf = (table: Readonly<Record<string, number>>, unit: string): number | undefined =>
  Object.hasOwn(table, unit) ? table[unit] : undefined

const massKgPer: Readonly<Record<string, number>> = {
  kg: 1,
  g: 0.001,
  t: 1000,
  tonne: 1000,
  lb: KG_PER_POUND,
  lbs: KG_PER_POUND,
  pound: KG_PER_POUND,
  pounds: KG_PER_POUND,
  oz: KG_PER_POUND / 16,
}

/** A mass: `8.2 kg`, `18 lb`, `12 oz`. A bare number is in the shop's unit. */
export function readMass(text: string, options: { defaultUnit: 'kg' | 'lb' }): Read<{ massKg: number }> {
  const typed = readWithUnit(text, options.defaultUnit)
  if (!typed.ok) return typed
  const factor = factorOf(massKgPer, typed.unit)
  if (factor === undefined) return refuse(`"${typed.unit}" is not a unit of mass here: use kg, g, lb or oz`)
  if (typed.value < 0) return refuse('A mass can’t be less than 0')
  const massKg = typed.value * factor
  const [kg, lb] = [
    formatMass(massKg, { unit: 'kg', decimals: 4 }),
    formatMass(massKg, { unit: 'lb', decimals: 4 }),
  ]
  return { ok: true, massKg, echo: options.defaultUnit === 'lb' ? `${lb} (${kg})` : `${kg} (${lb})` }
}

const stressMPaPer: Readonly<Record<string, number>> = {
  mpa: 1,
  'n/mm2': 1,
  'n/mm²': 1,
  gpa: 1000,
  kpa: 0.001,
  ksi: MPA_PER_KSI,
  psi: MPA_PER_KSI / 1000,
  msi: MPA_PER_KSI * 1000,
}

/** A stress, strength or modulus: `276 MPa`, `40 ksi`, `5400 psi`, `68.9 GPa`. A bare number is in the shop's unit. */
export function readStress(
  text: string,
  options: { defaultUnit: 'MPa' | 'ksi' },
): Read<{ stressMPa: number }> {
  const typed = readWithUnit(text, options.defaultUnit)
  if (!typed.ok) return typed
  const factor = factorOf(stressMPaPer, typed.unit)
  if (factor === undefined)
    return refuse(`"${typed.unit}" is not a unit of stress here: use MPa, GPa, ksi or psi`)
  if (typed.value < 0) return refuse('A strength can’t be less than 0')
  const stressMPa = typed.value * factor
  const [mpa, ksi] = [
    formatStress(stressMPa, { unit: 'MPa', decimals: 2 }),
    formatStress(stressMPa, { unit: 'ksi', decimals: 2 }),
  ]
  return { ok: true, stressMPa, echo: options.defaultUnit === 'ksi' ? `${ksi} (${mpa})` : `${mpa} (${ksi})` }
}

/** A temperature: `95 °C`, `203 F`. A bare number is in the shop's unit. */
export function readTemperature(
  text: string,
  options: { defaultUnit: 'C' | 'F' },
): Read<{ temperatureC: number }> {
  const typed = readWithUnit(text, options.defaultUnit)
  if (!typed.ok) return typed
  const unit = typed.unit.replace(/^(?:°|deg) ?/, '') || options.defaultUnit.toLowerCase()
  if (unit !== 'c' && unit !== 'f')
    return refuse(`"${typed.unit}" is not a unit of temperature here: use °C or °F`)
  const temperatureC = unit === 'f' ? celsiusFromFahrenheit(typed.value) : typed.value
  if (temperatureC < -KELVIN_AT_ZERO_CELSIUS) return refuse('Nothing is that cold')
  const [c, f] = [
    formatTemperature(temperatureC, { unit: 'C', decimals: 2 }),
    formatTemperature(temperatureC, { unit: 'F', decimals: 2 }),
  ]
  return { ok: true, temperatureC, echo: options.defaultUnit === 'F' ? `${f} (${c})` : `${c} (${f})` }
}

/** A share in percent, with or without the sign: `12.5` and `12.5 %` are a fraction of 0.125. */
export function readPercent(text: string): Read<{ shareFraction: number }> {
  const typed = readWithUnit(text, '%')
  if (!typed.ok) return typed
  if (typed.unit !== '%' && typed.unit !== 'percent' && typed.unit !== 'pct')
    return refuse(`"${typed.unit}" is not percent`)
  const shareFraction = typed.value / 100
  return { ok: true, shareFraction, echo: formatPercent(shareFraction, { decimals: 4 }) }
}
