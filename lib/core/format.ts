import { minorUnitDigits } from '@/lib/core/cost/money'
import type { LengthUnit, PressTon } from '@/lib/core/units'
import {
  fahrenheitFromCelsius,
  inchFromMm,
  ksiFromMpa,
  poundForceFromKilonewton,
  poundFromKg,
  pressTons,
} from '@/lib/core/units'

/** The thin space that never breaks between a number and its unit (U+202F). */
export const THIN_SPACE = '\u202f'

/** A minus as wide as a plus (U+2212) is left to type setting; text that may be typed back in keeps the hyphen. */
type Decimals = Readonly<{ decimals?: number; keepZeros?: boolean }>

function requireFinite(value: number, what: string): void {
  if (!Number.isFinite(value)) throw new RangeError(`${what} has no value to show: ${value}`)
}

/**
 * A number with at most so many decimals, trailing zeros dropped unless kept, never -0, never in powers of ten.
 * Halves round away from zero as the shortest decimal of the number says: 1.005 to two places is 1.01.
 */
export function formatNumber(value: number, options: Decimals = {}): string {
  requireFinite(value, 'a number')
  const decimals = options.decimals ?? 2
  const rounded = roundedText(Math.abs(value), decimals)
  const text = options.keepZeros || !rounded.includes('.') ? rounded : rounded.replace(/\.?0+$/, '')
  return value < 0 && /[1-9]/.test(text) ? `-${text}` : text
}

function roundedText(size: number, decimals: number): string {
  const shortest = String(size)
  if (shortest.includes('e')) return size >= 1e21 ? BigInt(size).toString() : size.toFixed(decimals)
  const [whole = '0', fraction = ''] = shortest.split('.')
  if (fraction.length <= decimals)
    return decimals === 0 ? whole : `${whole}.${fraction.padEnd(decimals, '0')}`
  const kept = BigInt(`${whole}${fraction.slice(0, decimals)}`)
  const up = (fraction[decimals] ?? '0') >= '5'
  const digits = (kept + (up ? 1n : 0n)).toString().padStart(decimals + 1, '0')
  return decimals === 0 ? digits : `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`
}

const withUnit = (number: string, unit: string): string => `${number}${THIN_SPACE}${unit}`

export type LengthStyle =
  | (Readonly<{ unit: 'mm' | 'in' }> & Decimals)
  | Readonly<{ unit: 'in'; fractionOf: 16 | 32 | 64 }>

/** A length in the shop's style: `38.1 mm`, `1.5 in`, or to the nearest fraction of an inch, `1-1/2 in`. */
export function formatLength(lengthMm: number, styleOrUnit: LengthStyle | LengthUnit): string {
  requireFinite(lengthMm, 'a length')
  const style: LengthStyle = typeof styleOrUnit === 'string' ? { unit: styleOrUnit } : styleOrUnit
  if (style.unit === 'mm') return withUnit(formatNumber(lengthMm, { decimals: 1, ...style }), 'mm')
  if ('fractionOf' in style) return withUnit(inchFraction(inchFromMm(lengthMm), style.fractionOf), 'in')
  return withUnit(formatNumber(inchFromMm(lengthMm), { decimals: 3, ...style }), 'in')
}

function inchFraction(lengthIn: number, fractionOf: number): string {
  const parts = Math.round(Math.abs(lengthIn) * fractionOf)
  const whole = Math.floor(parts / fractionOf)
  let numerator = parts % fractionOf
  let denominator = fractionOf
  while (numerator > 0 && numerator % 2 === 0) {
    numerator /= 2
    denominator /= 2
  }
  const fraction = numerator > 0 ? `${numerator}/${denominator}` : ''
  const text = whole > 0 && fraction ? `${whole}-${fraction}` : fraction || String(whole)
  return lengthIn < 0 && parts > 0 ? `-${text}` : text
}

/** An angle: `34.1°`, or `34° 6′ 0″` to the second. */
export function formatAngle(
  angleDeg: number,
  options: Decimals & Readonly<{ style?: 'decimal' | 'sexagesimal' }> = {},
): string {
  requireFinite(angleDeg, 'an angle')
  if (options.style !== 'sexagesimal') return `${formatNumber(angleDeg, { decimals: 1, ...options })}°`
  const allSeconds = Math.round(Math.abs(angleDeg) * 3600)
  const degrees = Math.floor(allSeconds / 3600)
  const minutes = Math.floor((allSeconds % 3600) / 60)
  const seconds = allSeconds % 60
  const sign = angleDeg < 0 && allSeconds > 0 ? '-' : ''
  const tail = seconds > 0 ? `${THIN_SPACE}${seconds}″` : ''
  return `${sign}${degrees}°${THIN_SPACE}${minutes}′${tail}`
}

/** A mass: `8.2 kg` or `18 lb`. */
export function formatMass(massKg: number, style: Readonly<{ unit: 'kg' | 'lb' }> & Decimals): string {
  const value = style.unit === 'kg' ? massKg : poundFromKg(massKg)
  return withUnit(formatNumber(value, { decimals: 2, ...style }), style.unit)
}

/** A force: `89 kN`, `20000 lbf`, or in a named ton, `10 US ton`. */
export function formatForce(
  forceKn: number,
  style: Readonly<{ unit: 'kN' | 'lbf' | PressTon }> & Decimals,
): string {
  if (style.unit === 'kN') return withUnit(formatNumber(forceKn, { decimals: 1, ...style }), 'kN')
  if (style.unit === 'lbf')
    return withUnit(formatNumber(poundForceFromKilonewton(forceKn), { decimals: 0, ...style }), 'lbf')
  const words = { usShort: 'US ton', metric: 'metric ton', long: 'long ton' }[style.unit].replace(
    ' ',
    THIN_SPACE,
  )
  return withUnit(formatNumber(forceKn / pressTons[style.unit].kilonewtons, { decimals: 2, ...style }), words)
}

/** A stress or modulus: `276 MPa` or `40 ksi`. */
export function formatStress(stressMPa: number, style: Readonly<{ unit: 'MPa' | 'ksi' }> & Decimals): string {
  const isMetric = style.unit === 'MPa'
  return withUnit(
    formatNumber(isMetric ? stressMPa : ksiFromMpa(stressMPa), { decimals: isMetric ? 0 : 1, ...style }),
    style.unit,
  )
}

/** A temperature: `70 °C` or `158 °F`. */
export function formatTemperature(
  temperatureC: number,
  style: Readonly<{ unit: 'C' | 'F' }> & Decimals,
): string {
  const value = style.unit === 'C' ? temperatureC : fahrenheitFromCelsius(temperatureC)
  return withUnit(formatNumber(value, { decimals: 0, ...style }), `°${style.unit}`)
}

/** A share of one as percent: 0.125 is `12.5 %`. */
export function formatPercent(shareFraction: number, options: Decimals = {}): string {
  requireFinite(shareFraction, 'a share')
  return withUnit(
    formatNumber(Number((shareFraction * 100).toPrecision(14)), { decimals: 1, ...options }),
    '%',
  )
}

/** A duration: `45 s`, `80 min` as `1 h 20 min`, `2 h`. To the minute from one minute up. */
export function formatDuration(durationMinutes: number): string {
  requireFinite(durationMinutes, 'a duration')
  if (durationMinutes < 0) return `-${formatDuration(-durationMinutes)}`
  if (durationMinutes > 0 && durationMinutes < 1)
    return withUnit(String(Math.round(durationMinutes * 60)), 's')
  const whole = Math.round(durationMinutes)
  const hours = Math.floor(whole / 60)
  const minutes = whole % 60
  if (hours === 0) return withUnit(String(minutes), 'min')
  return minutes === 0
    ? withUnit(String(hours), 'h')
    : `${withUnit(String(hours), 'h')} ${withUnit(String(minutes), 'min')}`
}

/** Making one of the platform's formatters costs a hundred times what using it does, so each is made once. */
const currencyFormatters = new Map<string, Intl.NumberFormat>()

function currencyFormatter(locale: string, currency: string, digits: number): Intl.NumberFormat {
  const key = `${locale} ${currency}`
  const known = currencyFormatters.get(key)
  if (known) return known
  const made = new Intl.NumberFormat(locale, {
    style: 'currency',
    currency,
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  })
  currencyFormatters.set(key, made)
  return made
}

/**
 * Money from whole smallest units, by the decimal text so that no float comes between.
 * Source: ISO 4217 minor units; the locale's own pattern, US English unless said otherwise.
 */
export function formatMoney(
  amountCents: number,
  style: Readonly<{ currency: string; locale: string }>,
): string {
  if (!Number.isSafeInteger(amountCents))
    throw new RangeError(`money is a whole number of the smallest unit, not ${amountCents}`)
  const digits = minorUnitDigits(style.currency)
  const text = String(Math.abs(amountCents)).padStart(digits + 1, '0')
  const decimal = digits === 0 ? text : `${text.slice(0, -digits)}.${text.slice(-digits)}`
  const formatter = currencyFormatter(style.locale ?? 'en-US', style.currency, digits)
  return formatter.format(`${amountCents < 0 ? '-' : ''}${decimal}` as `${number}`)
}

export type DatePlace = Readonly<{ locale: string; timeZone: string }>

const DATE_ONLY = /^\d{4}-\d{2}-\d{2}$/
const WITH_ZONE = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}.*(?:Z|[+-]\d{2}:?\d{2})$/

function readInstant(iso: string): Date {
  const instant = new Date(iso)
  const isDay = DATE_ONLY.test(iso)
  if ((!isDay && !WITH_ZONE.test(iso)) || Number.isNaN(instant.getTime())) {
    throw new RangeError(`a date is written 2026-03-09 or 2026-03-09T14:05:00Z, not "${iso}"`)
  }
  if (isDay && instant.toISOString().slice(0, 10) !== iso) throw new RangeError(`there is no day ${iso}`)
  return instant
}

const dayFormatters = new Map<string, Intl.DateTimeFormat>()

function dayFormatter(locale: string, timeZone: string, timeStyle?: 'short'): Intl.DateTimeFormat {
  const key = `${locale} ${timeZone} ${timeStyle ?? ''}`
  const known = dayFormatters.get(key)
  if (known) return known
  const made = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle, timeZone })
  dayFormatters.set(key, made)
  return made
}

/** A day in the reader's locale. A date without a time is that day everywhere; an instant is the day it falls on in the time zone. */
export function formatDate(iso: string, place: DatePlace): string {
  const timeZone = DATE_ONLY.test(iso) ? 'UTC' : place.timeZone
  return dayFormatter(place.locale, timeZone).format(readInstant(iso))
}

/** An instant as day and time in the reader's locale and time zone. */
export function formatDateTime(iso: string, place: DatePlace): string {
  if (DATE_ONLY.test(iso)) throw new RangeError(`"${iso}" is a day without a time`)
  return dayFormatter(place.locale, place.timeZone, 'short').format(readInstant(iso))
}
