import { describe, expect, it } from 'vitest'
import {
  breakTotals,
  changeWords,
  earned,
  momentAfterDay,
  type QuoteSnapshot,
  standingOn,
} from '@/lib/records/quote/rules'

const day = (text: string) => new Date(`${text}T00:00:00Z`)

describe('The end of a day', () => {
  // By hand: New York is UTC-5 in winter and UTC-4 in summer; its clocks went back on 1 November 2026. Kiritimati is UTC+14, Honolulu UTC-10, Kathmandu UTC+5:45.
  it.each([
    ['2026-12-25', 'America/New_York', '2026-12-26T05:00:00.000Z'],
    ['2026-07-04', 'America/New_York', '2026-07-05T04:00:00.000Z'],
    ['2026-11-01', 'America/New_York', '2026-11-02T05:00:00.000Z'],
    ['2026-12-25', 'UTC', '2026-12-26T00:00:00.000Z'],
    ['2026-12-25', 'Pacific/Kiritimati', '2026-12-25T10:00:00.000Z'],
    ['2026-12-25', 'Pacific/Honolulu', '2026-12-26T10:00:00.000Z'],
    ['2026-12-25', 'Asia/Kathmandu', '2026-12-25T18:15:00.000Z'],
  ])('%s in %s is %s', (text, zone, moment) => {
    expect(momentAfterDay(day(text), zone).toISOString()).toBe(moment)
  })
})

describe('A quote on a day', () => {
  it('holds through its last day and has lapsed on the next', () => {
    const quote = { status: 'sent' as const, validUntil: day('2026-12-25') }
    expect(standingOn(quote, day('2026-12-25'))).toBe('sent')
    expect(standingOn(quote, day('2026-12-26'))).toBe('lapsed')
    expect(standingOn({ ...quote, status: 'accepted' }, day('2026-12-26'))).toBe('accepted')
  })
})

describe('What a step of a price list comes to', () => {
  it('is taxed once, halves up: 6 at 189.00 is 1134.00, 8.25 percent of it 93.56', () => {
    // By hand: 1134.00 x 0.0825 = 93.555, up to 93.56.
    expect(breakTotals({ quantity: 6, unitCents: 18_900 }, 82_500)).toEqual({
      netCents: 113_400,
      taxCents: 9356,
      grossCents: 122_756,
    })
  })

  it('earns a margin of the price and a markup on the cost, never the same: 100 sold at 150 is 33.3 and 50 percent', () => {
    const gained = earned({ unitCents: 15_000, costCents: 10_000 })
    expect(gained?.marginFraction).toBeCloseTo(1 / 3, 12)
    expect(gained?.markupFraction).toBeCloseTo(0.5, 12)
    expect(earned({ unitCents: 15_000, costCents: null })).toBeNull()
  })
})

describe('What changed from one sending to the next', () => {
  const line = {
    lineId: 1,
    position: 1,
    partNumber: 'P-0001',
    revision: 'A',
    customerRef: '',
    description: 'Davit arm',
    leadTimeDays: 21,
    breaks: [
      { quantity: 1, unitCents: 41_250 },
      { quantity: 6, unitCents: 18_900 },
    ],
  }
  const before: QuoteSnapshot = {
    number: 'Q-0001',
    issue: 1,
    sentOn: '2026-11-01',
    validUntil: '2026-12-01',
    shop: { name: 'Tidewrack', addressText: '', contactText: '', paper: 'letter', timeZone: 'UTC' },
    customer: { name: 'Kestrel', addressText: '' },
    currency: 'USD',
    taxName: 'Sales tax',
    taxPpm: 82_500,
    termsText: 'Net 30.',
    noteText: '',
    lines: [line],
  }

  it('is said as the customer reads it, a long text only named', () => {
    const steps = [
      { quantity: 6, unitCents: 17_900 },
      { quantity: 20, unitCents: 14_000 },
    ]
    const after = {
      ...before,
      issue: 2,
      termsText: 'Net 15.',
      lines: [{ ...line, leadTimeDays: 28, breaks: steps }],
    }
    expect(changeWords(before, after, (cents) => `$${(cents / 100).toFixed(2)}`)).toEqual([
      'Terms: changed.',
      'P-0001, lead time: 28 calendar days, was 21 calendar days.',
      'P-0001, each from 1: no longer offered.',
      'P-0001, each from 6: $179.00, was $189.00.',
      'P-0001, each from 20: $140.00, new.',
    ])
  })

  it('is nothing where the same was sent again', () => {
    expect(changeWords(before, { ...before, issue: 2 }, String)).toEqual([])
  })
})
