import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formatLength } from '@/lib/core/format'
import { readLength } from '@/lib/core/typed/length'

const mmOf = (text: string, defaultUnit: 'mm' | 'in' = 'mm'): number => {
  const read = readLength(text, { defaultUnit, allowNegative: true })
  if (!read.ok) throw new RangeError(`${text}: ${read.message}`)
  return read.lengthMm
}
const refusalOf = (text: string): string => {
  const read = readLength(text, { defaultUnit: 'mm' })
  return read.ok ? `read as ${read.lengthMm}` : read.message
}

describe('a length as people type it', () => {
  it.each([
    // One inch is 25.4 mm exactly (NIST SP 811).
    ['1-1/2"', 38.1],
    ['1 1/2 in', 38.1],
    ['1 - 1/2 in.', 38.1],
    ['1½"', 38.1],
    ['1-1/2″', 38.1],
    ['38.1 mm', 38.1],
    ['38.1mm', 38.1],
    ['38.1', 38.1],
    ['38,1', 38.1],
    ['3.81 cm', 38.1],
    ['0.0381 m', 38.1],
    ['1.5in', 38.1],
    ['1.5 inches', 38.1],
    ['.5"', 12.7],
    ['3/4', 19.05],
    ['3/4"', 19.05],
    ['2\' 3-1/2"', 698.5],
    ['2 ft 3 1/2 in', 698.5],
    ["2'3", 685.8],
    ['2\'-6"', 762],
    ["2'", 609.6],
    ['11 ga', 3.048],
    ['16 gauge', 1.651],
    ['18 BWG', 1.2446],
    ['1 234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['1.234,5', 1234.5],
    ['12\u202f500 mm', 12_500],
    ['0,500', 0.5],
    ['-3 mm', -3],
    ['\u22123 mm', -3],
    ['0', 0],
  ])('%s is %d mm', (text, lengthMm) => {
    expect(mmOf(text)).toBeCloseTo(lengthMm, 9)
  })
  it('takes a bare number in the shop’s unit, and a bare fraction as inches whatever that is', () => {
    expect(mmOf('1.5', 'in')).toBeCloseTo(38.1, 9)
    expect(mmOf('1.5', 'mm')).toBe(1.5)
    expect(mmOf('1-1/2', 'in')).toBe(mmOf('1-1/2', 'mm'))
  })
  it('echoes what was understood in both units', () => {
    const read = readLength('1-1/2"', { defaultUnit: 'mm' })
    expect(read).toMatchObject({ ok: true, echo: '1.5\u202fin (38.1\u202fmm)' })
    expect(readLength('11 ga', { defaultUnit: 'mm' })).toMatchObject({
      echo: expect.stringContaining('11 gauge (Birmingham)'),
    })
  })
  it('refuses a gauge where the field holds no wall', () => {
    expect(readLength('11 ga', { defaultUnit: 'mm', gauge: false })).toMatchObject({
      ok: false,
      message: expect.stringContaining('wall'),
    })
  })
  it.each([
    ['', /Nothing/],
    ['   ', /Nothing/],
    ['abc', /not a number/],
    ['12 furlongs', /not a unit/],
    ['1,500', /1500 or 1.5/],
    ['1/0', /over 0/],
    ['1 5/4 in', /fraction of 1 or more/],
    ['27 ga', /no 27 gauge/],
    ['-3 mm', /less than 0/],
    ['2\' 13"', /less than 12/],
    ['2\' 12"', /less than 12/],
    ['1e5', /not a unit/],
    ['1.2.3', /not a number/],
    ['38.1 mm mm', /not a unit/],
    ['20000 m', /at most/],
    ['constructor', /not a number/],
    ['5 constructor', /not a unit/],
    ['5 __proto__', /not a unit/],
    ['NaN', /not a number/],
    ['Infinity', /not a number/],
    ['0x10', /not a unit/],
    ['9'.repeat(65), /Too long/],
  ])('refuses "%s" in words', (text, words) => {
    expect(refusalOf(text)).toMatch(words)
  })
  it('reads back whatever it was shown, in mm and decimal inches, to the last place shown', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.constantFrom('mm', 'in'),
        (lengthMm, unit) => {
          expect(
            Math.abs(mmOf(formatLength(lengthMm, { unit, decimals: 4 })) - lengthMm),
          ).toBeLessThanOrEqual(0.00128)
        },
      ),
    )
  })
  it('reads back exactly a fraction of an inch that it showed', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 50_000 }), fc.constantFrom(16, 32, 64), (parts, fractionOf) => {
        const lengthMm = (parts / fractionOf) * 25.4
        expect(mmOf(formatLength(lengthMm, { unit: 'in', fractionOf }))).toBeCloseTo(lengthMm, 8)
      }),
    )
  })
})
