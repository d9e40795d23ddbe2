import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { moneyText } from '@/app/_ui/money'
import {
  invoiceTaxCents,
  marginAndMarkup,
  marginFromMarkup,
  markupFromMargin,
  minorUnitDigits,
  priceByMarginCents,
  priceByMarkupCents,
  roundDecimalText,
  roundedQuotient,
  roundPriceCents,
  splitCents,
  taxCents,
  wholeCents,
} from '@/lib/core/cost/money'
import { readMoney } from '@/lib/core/typed/money'

describe('rounding', () => {
  it('rounds decimals as written, halves up or to even', () => {
    // ISO 80000-1 Annex B: 2.665 is 2.66 to even, commercially 2.67; a binary float of 1.005 would give 1.00
    expect(roundDecimalText('2.665', 2)).toBe(267n)
    expect(roundDecimalText('2.665', 2, 'halfEven')).toBe(266n)
    expect(roundDecimalText('2.675', 2)).toBe(268n)
    expect(roundDecimalText('2.675', 2, 'halfEven')).toBe(268n)
    expect(roundDecimalText('1.005', 2)).toBe(101n)
    expect(roundDecimalText('-1.005', 2)).toBe(-101n)
    expect(roundDecimalText('7', 2)).toBe(700n)
    expect(() => roundDecimalText('1e3', 2)).toThrow(RangeError)
  })

  it('brings a computed cost to whole cents by the decimal it stands for', () => {
    // 1.005 * 100 is 100.49999999999999 in binary
    expect(wholeCents(1.005 * 100)).toBe(101)
    expect(wholeCents(0.5)).toBe(1)
    expect(wholeCents(-0.5)).toBe(-1)
    expect(wholeCents(100.4999)).toBe(100)
    expect(wholeCents(0)).toBe(0)
    expect(() => wholeCents(Number.NaN)).toThrow(RangeError)
    expect(() => wholeCents(1e15)).toThrow(RangeError)
  })

  it('divides whole numbers with halves away from zero or to even', () => {
    expect([roundedQuotient(5n, 2n), roundedQuotient(-5n, 2n)]).toEqual([3n, -3n])
    expect([roundedQuotient(5n, 2n, 'halfEven'), roundedQuotient(7n, 2n, 'halfEven')]).toEqual([2n, 4n])
    expect(() => roundedQuotient(1n, 0n)).toThrow(RangeError)
  })

  it('brings prices to steps of 0.05, 1 and 5, nearest, up and down', () => {
    // By hand; cash rounding to five cents as in Canada: 1.02 -> 1.00, 1.03 -> 1.05
    expect(roundPriceCents(102, { stepCents: 5, direction: 'nearest' })).toBe(100)
    expect(roundPriceCents(103, { stepCents: 5, direction: 'nearest' })).toBe(105)
    expect(roundPriceCents(12_301, { stepCents: 100, direction: 'up' })).toBe(12_400)
    expect(roundPriceCents(12_399, { stepCents: 100, direction: 'down' })).toBe(12_300)
    expect(roundPriceCents(12_250, { stepCents: 500, direction: 'nearest' })).toBe(12_500)
    expect(roundPriceCents(12_300, { stepCents: 100, direction: 'up' })).toBe(12_300)
    expect(() => roundPriceCents(100, { stepCents: 0, direction: 'up' })).toThrow(RangeError)
    expect(() => roundPriceCents(100.5, { stepCents: 1, direction: 'up' })).toThrow(RangeError)
  })
})

describe('margin and markup', () => {
  it('are two ways of naming one profit', () => {
    // k = 50 percent is g = 33.333; g = 40 percent is k = 66.667
    expect(marginFromMarkup(0.5)).toBeCloseTo(1 / 3, 12)
    expect(markupFromMargin(0.4)).toBeCloseTo(2 / 3, 12)
    expect(marginAndMarkup(6000, 10_000)).toEqual({
      profitCents: 4000,
      marginFraction: 0.4,
      markupFraction: 4000 / 6000,
    })
    expect(marginAndMarkup(0, 0)).toEqual({ profitCents: 0, marginFraction: null, markupFraction: null })
    expect(() => marginFromMarkup(-1)).toThrow(RangeError)
    expect(() => markupFromMargin(1)).toThrow(RangeError)
  })

  it('give the same price when they name the same profit', () => {
    // By hand: 60.00 at 40 percent margin = 100.00; at 66.6667 percent markup = 100.00
    expect(priceByMarginCents(6000, 400_000)).toBe(10_000)
    expect(priceByMarkupCents(6000, 666_667)).toBe(10_000)
    expect(priceByMarkupCents(6000, 0)).toBe(6000)
    for (const none of [1_000_000, 1_200_000, -1])
      expect(() => priceByMarginCents(6000, none)).toThrow(/share of the price/)
    expect(priceByMarginCents(6000, 0)).toBe(6000)
    // A millionth of the price left: 6000 / 0.000001.
    expect(priceByMarginCents(6000, 999_999)).toBe(6_000_000_000)
    expect(() => priceByMarkupCents(6000, -1)).toThrow(RangeError)
  })

  it('turn into one another and back', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 20, noNaN: true }), (markup) => {
        expect(markupFromMargin(marginFromMarkup(markup))).toBeCloseTo(markup, 9)
      }),
    )
  })
})

describe('splitting an amount', () => {
  it('keeps the sum by the largest remainder', () => {
    // 100.00 over three: 33.34 + 33.33 + 33.33
    expect(splitCents(10_000, [1, 1, 1])).toEqual([3334, 3333, 3333])
    expect(splitCents(-10_000, [1, 1, 1])).toEqual([-3334, -3333, -3333])
    expect(splitCents(100, [0, 1])).toEqual([0, 100])
    expect(() => splitCents(100, [0, 0])).toThrow(RangeError)
    expect(() => splitCents(100, [-1, 2])).toThrow(RangeError)
  })

  it('gives seats as in Hamilton\u2019s method', () => {
    // Textbook: votes 41, 29, 30 for 10 seats: quotas 4.1, 2.9, 3.0 -> 4, 3, 3
    expect(splitCents(10, [41, 29, 30])).toEqual([4, 3, 3])
  })

  it('adds up whatever the weights, each part within a cent of its share', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 10_000_000 }),
        fc
          .array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 12 })
          .filter((w) => w.some((one) => one > 0)),
        (total, weights) => {
          const parts = splitCents(total, weights)
          const sum = weights.reduce((a, b) => a + b, 0)
          expect(parts.reduce((a, b) => a + b, 0)).toBe(total)
          parts.forEach((part, i) =>
            expect(Math.abs(part - (total * (weights[i] ?? 0)) / sum)).toBeLessThan(1.001),
          )
        },
      ),
    )
  })
})

describe('tax', () => {
  it('is rounded once, halves up, on the exact product', () => {
    // Streamlined Sales and Use Tax Agreement, section 324: 10.99 at 6.25 percent = .686875 -> .69
    expect(taxCents(1099, 62_500)).toBe(69)
    // .1249 is .12, not by way of .125 to .13: 2.00 at 6.245 percent
    expect(taxCents(200, 62_450)).toBe(12)
  })

  it('may be rounded on each item or on the invoice, and the two differ', () => {
    // Section 324: three items of 1.10 at 6 percent: .07 each = .21; 3.30 at 6 percent = .198 -> .20
    const lines = [1, 2, 3].map(() => ({ amountCents: 110, ratePpm: 60_000 }))
    expect(invoiceTaxCents(lines, 'perLine')).toBe(21)
    expect(invoiceTaxCents(lines, 'perInvoice')).toBe(20)
  })

  it('keeps rates apart on the invoice', () => {
    // By hand: 10.00 at 5 percent .50 + 10.00 at 0 = .50
    const lines = [
      { amountCents: 1000, ratePpm: 50_000 },
      { amountCents: 1000, ratePpm: 0 },
    ]
    expect(invoiceTaxCents(lines, 'perInvoice')).toBe(50)
    expect(() => taxCents(1.5, 1)).toThrow(RangeError)
  })
})

describe('currencies', () => {
  it.each([
    ['USD', 2],
    ['EUR', 2],
    ['JPY', 0],
    ['CLP', 0],
    ['BHD', 3],
    ['KWD', 3],
    ['IQD', 3],
    ['ISK', 0],
    ['VND', 0],
    ['XPF', 0],
    ['CLF', 4],
    ['UYW', 4],
    ['HUF', 2],
    ['COP', 2],
    ['PKR', 2],
    ['IDR', 2],
  ])('%s has %i decimal places (ISO 4217)', (code, digits) => {
    expect(minorUnitDigits(code)).toBe(digits)
  })

  it('are typed and shown with the same decimals, whatever the platform would write', () => {
    for (const currency of Intl.supportedValuesOf('currency')) {
      const digits = minorUnitDigits(currency)
      const read = readMoney(digits === 0 ? '1234' : `1234.${'5'.repeat(digits)}`, { currency })
      const amountCents = Number(`1234${'5'.repeat(digits)}`)
      expect(read, currency).toMatchObject({ ok: true, amountCents })
      const shown = /\d[\d,]*(?:\.\d+)?/.exec(moneyText(amountCents, currency))?.[0].replace(',', '')
      expect(shown, currency).toBe(digits === 0 ? '1234' : `1234.${'5'.repeat(digits)}`)
    }
  })

  it('are three capital letters', () => {
    expect(() => minorUnitDigits('usd')).toThrow(RangeError)
  })
})
