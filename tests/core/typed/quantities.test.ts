import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formatAngle, formatDuration, formatMoney, formatPercent, formatTemperature } from '@/lib/core/format'
import { readAngle } from '@/lib/core/typed/angle'
import { readDuration } from '@/lib/core/typed/duration'
import { readForce } from '@/lib/core/typed/force'
import { readLength } from '@/lib/core/typed/length'
import { readMoney } from '@/lib/core/typed/money'
import { readNumber } from '@/lib/core/typed/number'
import { MAX_TYPED_LENGTH } from '@/lib/core/typed/number-text'
import { readMass, readPercent, readStress, readTemperature } from '@/lib/core/typed/quantity'

const usd = { currency: 'USD' }

describe('angles', () => {
  it.each([
    ['30', 30],
    ['30°', 30],
    ['30 deg', 30],
    ['30,5', 30.5],
    ["30d15'", 30.25],
    ['30d15m', 30.25],
    ['30° 15\' 20"', 30 + 15 / 60 + 20 / 3600],
    ['30°15′20″', 30 + 15 / 60 + 20 / 3600],
    ['0.5 rad', 90 / Math.PI],
    ['-90', -90],
  ])('%s is %d degrees', (text, angleDeg) => {
    const read = readAngle(text)
    expect(read.ok && read.angleDeg).toBeCloseTo(angleDeg, 9)
  })
  it.each(['', '30 grad', "30d75'", '30° 15\' 70"', 'thirty', "15'", '1e9'])('refuses "%s"', (text) => {
    expect(readAngle(text).ok).toBe(false)
  })
  it('run to 36 000 degrees, and their minutes and seconds to less than 60', () => {
    expect(readAngle('36000')).toMatchObject({ ok: true, angleDeg: 36_000 })
    expect(readAngle('36000.1').ok).toBe(false)
    expect(readAngle(`30° 59' 59"`)).toMatchObject({ ok: true })
    expect(readAngle(`30° 60'`).ok).toBe(false)
    expect(readAngle(`30° 59' 60"`).ok).toBe(false)
  })
  it('reads back what it was shown, to a ten-thousandth of a degree or half a second', () => {
    fc.assert(
      fc.property(fc.double({ min: -360, max: 360, noNaN: true }), (angleDeg) => {
        const decimal = readAngle(formatAngle(angleDeg, { decimals: 4 }))
        const sexagesimal = readAngle(formatAngle(angleDeg, { style: 'sexagesimal' }))
        expect(decimal.ok && Math.abs(decimal.angleDeg - angleDeg)).toBeLessThanOrEqual(5.1e-5)
        expect(sexagesimal.ok && Math.abs(sexagesimal.angleDeg - angleDeg)).toBeLessThanOrEqual(0.51 / 3600)
      }),
    )
  })
})

describe('mass, stress, temperature and percent', () => {
  it('reads each in either system (NIST SP 811 factors)', () => {
    expect(readMass('18 lb', { defaultUnit: 'kg' })).toMatchObject({ massKg: 18 * 0.45359237 })
    expect(readMass('8,2', { defaultUnit: 'kg' })).toMatchObject({ massKg: 8.2 })
    expect(readStress('36 ksi', { defaultUnit: 'MPa' })).toMatchObject({
      stressMPa: expect.closeTo(248.211, 3),
    })
    expect(readStress('68.9 GPa', { defaultUnit: 'MPa' })).toMatchObject({ stressMPa: 68_900 })
    expect(readTemperature('158 F', { defaultUnit: 'C' })).toMatchObject({ temperatureC: 70 })
    expect(readTemperature('158', { defaultUnit: 'F' })).toMatchObject({ temperatureC: 70 })
    expect(readTemperature('-40 °C', { defaultUnit: 'F' })).toMatchObject({ temperatureC: -40 })
    expect(readPercent('12.5 %')).toMatchObject({ shareFraction: 0.125 })
    expect(readPercent('12,5')).toMatchObject({ shareFraction: 0.125 })
  })
  it('refuses other units, less than nothing, and colder than cold', () => {
    expect(readMass('3 stone', { defaultUnit: 'kg' }).ok).toBe(false)
    expect(readMass('-1 kg', { defaultUnit: 'kg' }).ok).toBe(false)
    expect(readStress('-1', { defaultUnit: 'MPa' }).ok).toBe(false)
    expect(readStress('3 bar', { defaultUnit: 'MPa' }).ok).toBe(false)
    expect(readTemperature('-300 C', { defaultUnit: 'C' }).ok).toBe(false)
    expect(readTemperature('20 K', { defaultUnit: 'C' }).ok).toBe(false)
    expect(readPercent('5 mm').ok).toBe(false)
  })
  it('reads back a temperature and a percentage it showed', () => {
    fc.assert(
      fc.property(fc.double({ min: -200, max: 2000, noNaN: true }), (value) => {
        const temperature = readTemperature(formatTemperature(value, { unit: 'F', decimals: 3 }), {
          defaultUnit: 'C',
        })
        expect(temperature.ok && Math.abs(temperature.temperatureC - value)).toBeLessThan(0.0005)
        const percent = readPercent(formatPercent(value / 100, { decimals: 4 }))
        expect(percent.ok && Math.abs(percent.shareFraction - value / 100)).toBeLessThan(1e-6)
      }),
    )
  })
})

describe('plain numbers', () => {
  it.each([
    ['12.5', 12.5],
    ['12,5', 12.5],
    ['-3', -3],
    ['1 234.5', 1234.5],
    ['3/4', 0.75],
    ['-0', 0],
  ])('%s is %d', (text, value) => {
    expect(readNumber(text)).toMatchObject({ ok: true, value })
  })
  it.each(['', 'x', '1,500', '5 mm', '1e3', '9999999999999999'])('refuses "%s"', (text) => {
    expect(readNumber(text).ok).toBe(false)
  })
})

describe('forces', () => {
  it('reads kN, N, lbf, kip and tons that are named', () => {
    expect(readForce('89 kN', { defaultUnit: 'kN' })).toMatchObject({ forceKn: 89 })
    expect(readForce('20000 lbf', { defaultUnit: 'kN' })).toMatchObject({
      forceKn: expect.closeTo(88.9644, 4),
    })
    expect(readForce('20 US tons', { defaultUnit: 'kN' })).toMatchObject({
      forceKn: expect.closeTo(177.92886, 4),
    })
    expect(readForce('20 metric ton', { defaultUnit: 'kN' })).toMatchObject({
      forceKn: expect.closeTo(196.133, 9),
    })
    expect(readForce('20 tonnes', { defaultUnit: 'kN' })).toMatchObject({
      forceKn: expect.closeTo(196.133, 9),
    })
    expect(readForce('20 long ton', { defaultUnit: 'kN' })).toMatchObject({
      forceKn: expect.closeTo(199.28, 2),
    })
    expect(readForce('20', { defaultUnit: 'usShort' })).toMatchObject({
      forceKn: expect.closeTo(177.92886, 4),
    })
  })
  it('asks which ton when only "ton" is typed, with what each would be', () => {
    const read = readForce('20 ton', { defaultUnit: 'kN' })
    expect(read.ok).toBe(false)
    expect(!read.ok && read.choices?.map(({ ton }) => ton)).toEqual(['usShort', 'metric', 'long'])
    expect(!read.ok && read.message).toMatch(/Which ton/)
  })
  it('doesn’t ask again once the shop has said which ton its press plate means', () => {
    expect(readForce('20 tons', { defaultUnit: 'kN', tonIs: 'metric' })).toMatchObject({
      forceKn: expect.closeTo(196.133, 9),
    })
  })
})

describe('money', () => {
  it.each([
    ['1234.5', 123_450],
    ['$1,234.50', 123_450],
    ['1 234,50', 123_450],
    ['USD 12', 1200],
    ['12 usd', 1200],
    ['1,234', 123_400],
    ['.05', 5],
    ['-3.10', -310],
    ['$-3.10', -310],
    ['-$3.10', -310],
    ['0', 0],
    // Through floats this would be 113.99999999999999.
    ['1.14', 114],
    ['90071992547409.91', 9_007_199_254_740_991],
  ])('"%s" is %d cents', (text, amountCents) => {
    expect(readMoney(text, usd)).toMatchObject({ ok: true, amountCents })
  })
  it('counts the smallest unit ISO 4217 gives the currency: none for yen, thousandths for Bahrain', () => {
    expect(readMoney('1234', { currency: 'JPY' })).toMatchObject({ amountCents: 1234 })
    expect(readMoney('1.5', { currency: 'JPY' }).ok).toBe(false)
    expect(readMoney('1.234', { currency: 'BHD' })).toMatchObject({ amountCents: 1234 })
    expect(readMoney('1,234', { currency: 'BHD' }).ok).toBe(false)
    expect(readMoney('1.234,50 €', { currency: 'EUR' })).toMatchObject({ amountCents: 123_450 })
  })
  it.each(['', '12.345', '1.2.3', '€ 5', '5 GBP', 'five', '$', '90071992547409.92', '1/2', '--5'])(
    'refuses "%s"',
    (text) => {
      expect(readMoney(text, usd).ok).toBe(false)
    },
  )
  it('reads back to the cent what it was shown, in every currency and locale tried', () => {
    const pairs = fc.constantFrom(
      ['USD', 'en-US'],
      ['EUR', 'de-DE'],
      ['EUR', 'fr-FR'],
      ['GBP', 'en-GB'],
      ['JPY', 'en-US'],
      ['BHD', 'en-US'],
    )
    fc.assert(
      fc.property(fc.maxSafeInteger(), pairs, (amountCents, [currency = 'USD', locale = 'en-US']) => {
        expect(readMoney(formatMoney(amountCents, { currency, locale }), { currency })).toMatchObject({
          amountCents: amountCents === 0 ? 0 : amountCents,
        })
      }),
    )
  })
})

describe('durations', () => {
  it.each([
    ['1h20', 80],
    ['1h20m', 80],
    ['1 h 20 min', 80],
    ['1:20', 80],
    ['80 min', 80],
    ['80', 80],
    ['1.5 h', 90],
    ['1,5h', 90],
    ['1 1/2 h', 90],
    ['2 hours', 120],
    ['90 s', 1.5],
  ])('"%s" is %d minutes', (text, durationMinutes) => {
    expect(readDuration(text)).toMatchObject({ ok: true, durationMinutes })
  })
  it('takes a bare number in the unit the field says', () => {
    expect(readDuration('2', { defaultUnit: 'h' })).toMatchObject({ durationMinutes: 120 })
  })
  it.each(['', '-5', '1h75', '1:75', 'soon', '3 fortnights', '5 constructor', '99999 h'])(
    'refuses "%s"',
    (text) => {
      expect(readDuration(text).ok).toBe(false)
    },
  )
  it('reads back the whole minutes it was shown', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000 }), (minutes) => {
        expect(readDuration(formatDuration(minutes))).toMatchObject({ durationMinutes: minutes })
      }),
    )
  })
})

describe('hostile text', () => {
  const readers = {
    length: (text: string) => readLength(text, { defaultUnit: 'mm', allowNegative: true }),
    angle: readAngle,
    number: readNumber,
    mass: (text: string) => readMass(text, { defaultUnit: 'kg' }),
    stress: (text: string) => readStress(text, { defaultUnit: 'MPa' }),
    temperature: (text: string) => readTemperature(text, { defaultUnit: 'C' }),
    percent: readPercent,
    force: (text: string) => readForce(text, { defaultUnit: 'kN' }),
    money: (text: string) => readMoney(text, usd),
    duration: (text: string) => readDuration(text),
  }
  const nasty = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 80 }),
    fc.string({ unit: fc.constantFrom(...'0123456789.,/- \'"°½dhmsinftga%$€kNton\u202f\n'), maxLength: 80 }),
  )
  it('never makes a reader throw, and a number read is always finite and never -0', () => {
    for (const reader of Object.values(readers)) {
      fc.assert(
        fc.property(nasty, (text) => {
          const read = reader(text)
          expect(read.ok || read.message).not.toBe('')
          for (const value of Object.values(read)) {
            if (typeof value !== 'number') continue
            expect(Number.isFinite(value)).toBe(true)
            expect(Object.is(value, -0)).toBe(false)
          }
        }),
        { numRuns: 400 },
      )
    }
  })
  it('is turned away unread when longer than the limit', () => {
    for (const reader of Object.values(readers)) {
      const read = reader('1'.repeat(MAX_TYPED_LENGTH + 1))
      expect(!read.ok && read.message).toMatch(/Too long/)
      expect(reader(`${' '.repeat(1_000_000)}1`).ok).toBe(false)
    }
  })
})
