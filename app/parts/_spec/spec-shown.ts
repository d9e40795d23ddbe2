import { formatNumber } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import type { Range } from '@/lib/core/spec/contract'
import { inchFromMm, type LengthUnit, poundFromKg, pressTons } from '@/lib/core/units'

export type Shown = { value: string; unit?: string }

/** A length in the shop's unit, to 0.1 mm or 0.001 in unless finer is asked. */
export function lengthShown(mm: number, unit: LengthUnit, decimalsMm = 1): Shown {
  return unit === 'in'
    ? { value: formatNumber(inchFromMm(mm), { decimals: decimalsMm + 2, keepZeros: true }), unit: 'in' }
    : { value: formatNumber(mm, { decimals: decimalsMm, keepZeros: true }), unit: 'mm' }
}

export const angleShown = (deg: number): Shown => ({
  value: formatNumber(deg, { decimals: 1, keepZeros: true }),
  unit: '°',
})

/** Beside inches in tons of 2000 lbf, as the press's own gauge and plate say it. */
export function forceShown(kn: number, unit: LengthUnit): Shown {
  return unit === 'in'
    ? {
        value: formatNumber(kn / pressTons.usShort.kilonewtons, { decimals: 2, keepZeros: true }),
        unit: 'US ton',
      }
    : { value: formatNumber(kn, { decimals: 1, keepZeros: true }), unit: 'kN' }
}

export function massShown(kg: number, unit: LengthUnit): Shown {
  const { mass } = shopUnits[unit]
  const value = mass === 'lb' ? poundFromKg(kg) : kg
  return { value: formatNumber(value, { decimals: 2, keepZeros: true }), unit: mass }
}

export const shareShown = (share: number, decimals = 1): Shown => ({
  value: formatNumber(share * 100, { decimals, keepZeros: true }),
  unit: '%',
})

/** Any value of a formula by its unit: lengths in the shop's, moments in kN·m, the rest to four figures. */
export function inputShown(value: number | string, unit: string | undefined, lengthUnit: LengthUnit): Shown {
  if (typeof value === 'string') return { value, unit }
  if (unit === 'mm') return lengthShown(value, lengthUnit, 2)
  if (unit === 'N·mm') return { value: formatNumber(value / 1e6, { decimals: 3 }), unit: 'kN·m' }
  return { value: String(Number(value.toPrecision(4))), ...(unit && { unit }) }
}

/** From the weakest to the strongest tube that may come off the rack, one standard deviation either way. */
export function rangeText(range: Range | undefined, shown: (value: number) => Shown): string | undefined {
  return range && `${shown(range.low).value} to ${shown(range.high).value}`
}

/** Below what a gauge on the bench can read, 0.02 mm, a sag is no number to trust. Common practice, no source. */
export const isHeld = (sagMm: number | undefined): boolean => sagMm !== undefined && sagMm < 0.02

const defaultWords: Readonly<Record<string, string>> = {
  'tube.cornerRadiusMm': 'outside corner radius, mm',
  'material.uniformStrain': 'uniform strain',
  'method.fillerId': 'filler',
  'method.fillerYieldMPa': 'yield of the filler, MPa',
  'method.fillerModulusMPa': 'modulus of the filler, MPa',
  'method.strap.frictionCoeff': 'friction of the strap',
  'press.supportFrictionCoeff': 'friction at the supports',
  'press.useFraction': 'share of the press that may be used',
  springbackFactor: 'springback factor',
  trimMm: 'trim, mm',
  kerfMm: 'saw kerf, mm',
}

/** A default the core used, 'press.supportFrictionCoeff 0.15', in words. */
export function defaultInWords(written: string): string {
  const [path = '', ...rest] = written.split(' ')
  const value = rest.join(' ')
  const number = Number(value)
  const shown = value !== '' && Number.isFinite(number) ? formatNumber(number, { decimals: 3 }) : value
  return `${defaultWords[path] ?? path} ${shown}`
}
