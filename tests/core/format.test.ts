import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  formatAngle,
  formatDate,
  formatDateTime,
  formatDuration,
  formatForce,
  formatLength,
  formatMass,
  formatMoney,
  formatNumber,
  formatPercent,
  formatStress,
  formatTemperature,
  THIN_SPACE,
} from '@/lib/core/format'

const plain = (text: string): string => text.replaceAll(THIN_SPACE, ' ')

describe('numbers', () => {
  it('never shows -0', () => {
    expect(formatNumber(-0)).toBe('0')
    expect(formatNumber(-0.004)).toBe('0')
    expect(formatNumber(-0.004, { keepZeros: true })).toBe('0.00')
    expect(plain(formatLength(-0.01, { unit: 'mm' }))).toBe('0 mm')
    expect(plain(formatLength(-0.1, { unit: 'in', fractionOf: 16 }))).toBe('0 in')
    expect(formatAngle(-0.0001, { style: 'sexagesimal' })).not.toContain('-')
  })
  it('rounds halves away from zero by the decimal a person sees: 1.005 is 1.01 and 2.665 is 2.67', () => {
    expect(formatNumber(1.005)).toBe('1.01')
    expect(formatNumber(2.665)).toBe('2.67')
    expect(formatNumber(-2.665)).toBe('-2.67')
    expect(formatNumber(9.995)).toBe('10')
    expect(formatNumber(0.05, { decimals: 1 })).toBe('0.1')
    expect(formatNumber(99.5, { decimals: 0 })).toBe('100')
  })
  it('drops trailing zeros, unless a table wants them kept', () => {
    expect(formatNumber(100)).toBe('100')
    expect(formatNumber(38.1, { decimals: 3 })).toBe('38.1')
    expect(formatNumber(38.1, { decimals: 3, keepZeros: true })).toBe('38.100')
  })
  it('never falls into powers of ten', () => {
    expect(formatNumber(1e-9)).toBe('0')
    expect(formatNumber(1.5e-7, { decimals: 8 })).toBe('0.00000015')
    expect(formatNumber(1e21)).toBe('1000000000000000000000')
  })
  it('refuses to show what has no value', () => {
    expect(() => formatNumber(Number.NaN)).toThrow(RangeError)
    expect(() => formatLength(Infinity, { unit: 'mm' })).toThrow(RangeError)
  })
  it('stays within half of its last place of the number', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, decimals) => {
          expect(Math.abs(Number(formatNumber(value, { decimals })) - value)).toBeLessThanOrEqual(
            0.5 * 10 ** -decimals + 1e-9,
          )
        },
      ),
    )
  })
})

describe('quantities', () => {
  it('puts a thin space that never breaks between a number and its unit', () => {
    expect(formatLength(38.1, { unit: 'mm' })).toBe('38.1\u202fmm')
    expect(formatForce(89, { unit: 'kN' })).toBe('89\u202fkN')
  })
  it('shows a length in mm, decimal inches, or the nearest fraction of an inch in lowest terms', () => {
    expect(plain(formatLength(38.1, { unit: 'in' }))).toBe('1.5 in')
    expect(plain(formatLength(38.1, { unit: 'in', fractionOf: 16 }))).toBe('1-1/2 in')
    expect(plain(formatLength(19.05, { unit: 'in', fractionOf: 32 }))).toBe('3/4 in')
    expect(plain(formatLength(25.3, { unit: 'in', fractionOf: 16 }))).toBe('1 in')
    expect(plain(formatLength(-38.1, { unit: 'in', fractionOf: 16 }))).toBe('-1-1/2 in')
    // 15/32 in = 11.90625 mm.
    expect(plain(formatLength(11.906, { unit: 'in', fractionOf: 32 }))).toBe('15/32 in')
  })
  it('shows an angle in degrees, or in degrees, minutes and seconds', () => {
    expect(formatAngle(34.12)).toBe('34.1°')
    expect(plain(formatAngle(30.25, { style: 'sexagesimal' }))).toBe('30° 15′')
    expect(plain(formatAngle(29.99999, { style: 'sexagesimal' }))).toBe('30° 0′')
    // 30 + 15/60 + 20/3600
    expect(plain(formatAngle(30.2555556, { style: 'sexagesimal' }))).toBe('30° 15′ 20″')
  })
  it('shows mass, force, stress and temperature in either system (NIST SP 811 factors)', () => {
    expect(plain(formatMass(8.165, { unit: 'lb', decimals: 1 }))).toBe('18 lb')
    expect(plain(formatForce(88.9644, { unit: 'lbf' }))).toBe('20000 lbf')
    expect(plain(formatForce(88.9644, { unit: 'usShort' }))).toBe('10 US ton')
    expect(plain(formatForce(98.0665, { unit: 'metric' }))).toBe('10 metric ton')
    expect(plain(formatStress(275.79, { unit: 'ksi' }))).toBe('40 ksi')
    expect(plain(formatTemperature(70, { unit: 'F' }))).toBe('158 °F')
    expect(plain(formatPercent(0.285))).toBe('28.5 %')
  })
  it('shows durations in hours and minutes', () => {
    expect([0, 0.5, 45, 60, 80, 119.6].map((minutes) => plain(formatDuration(minutes)))).toEqual([
      '0 min',
      '30 s',
      '45 min',
      '1 h',
      '1 h 20 min',
      '2 h',
    ])
  })
})

describe('money and dates', () => {
  it('shows as many decimals as ISO 4217 gives the currency', () => {
    expect(formatMoney(123_450, { currency: 'USD', locale: 'en-US' })).toBe('$1,234.50')
    expect(formatMoney(1234, { currency: 'JPY', locale: 'en-US' })).toBe('¥1,234')
    expect(formatMoney(1234, { currency: 'BHD', locale: 'en-US' }).replace(/\s/g, ' ')).toBe('BHD 1.234')
    expect(formatMoney(5, { currency: 'USD', locale: 'en-US' })).toBe('$0.05')
    expect(formatMoney(0, { currency: 'USD', locale: 'en-US' })).toBe('$0.00')
    expect(formatMoney(-150, { currency: 'USD', locale: 'en-US' })).toBe('-$1.50')
  })
  it('keeps every unit of an amount a float could not hold with its decimals', () => {
    expect(formatMoney(9_007_199_254_740_991, { currency: 'USD', locale: 'en-US' })).toBe(
      '$90,071,992,547,409.91',
    )
  })
  it('refuses parts of the smallest unit', () => {
    expect(() => formatMoney(1.5, { currency: 'USD', locale: 'en-US' })).toThrow(RangeError)
  })
  it('leaves a bare day alone in every time zone, and puts an instant on the day it falls on there', () => {
    expect(formatDate('2026-03-09', { locale: 'en-US', timeZone: 'America/Los_Angeles' })).toBe('Mar 9, 2026')
    expect(formatDate('2026-03-09', { locale: 'en-US', timeZone: 'Pacific/Auckland' })).toBe('Mar 9, 2026')
    // 02:00 UTC is 19:00 of the day before in Los Angeles (daylight time, 7 hours behind).
    expect(formatDate('2026-03-09T02:00:00Z', { locale: 'en-US', timeZone: 'America/Los_Angeles' })).toBe(
      'Mar 8, 2026',
    )
    expect(
      formatDateTime('2026-03-09T02:00:00Z', { locale: 'en-US', timeZone: 'America/Los_Angeles' }).replace(
        /\s/g,
        ' ',
      ),
    ).toBe('Mar 8, 2026, 7:00 PM')
  })
  it('refuses a day that isn’t one, and an instant that doesn’t say where', () => {
    const place = { locale: 'en-US', timeZone: 'UTC' }
    expect(() => formatDate('2026-02-30', place)).toThrow(RangeError)
    expect(() => formatDate('2026-03-09T02:00:00', place)).toThrow(RangeError)
    expect(() => formatDate('yesterday', place)).toThrow(RangeError)
    expect(() => formatDateTime('2026-03-09', place)).toThrow(RangeError)
  })
})
