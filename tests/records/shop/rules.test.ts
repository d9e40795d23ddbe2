import { describe, expect, it } from 'vitest'
import { readLength } from '@/lib/core/typed/length'
import { typedLength } from '@/lib/records/shop/rules'
import { currencyText, shopForm, timeZoneText } from '@/lib/records/shop/schema'

describe('A length written back into its field', () => {
  it.each([0, 2, 3, 3.175, 38.1, 146.05, 19.05, 1 / 3, 5000])(
    '%d mm read again is the same length, in either unit',
    (lengthMm) => {
      for (const unit of ['in', 'mm'] as const) {
        const read = readLength(typedLength(lengthMm, unit), { defaultUnit: unit })
        expect(read.ok && read.lengthMm).toBeCloseTo(lengthMm, 8)
      }
    },
  )

  // By hand: 38.1 / 25.4 = 1.5; 2 mm is no round number of inches.
  it('is in inches where it is round in inches, else in millimetres with their unit', () => {
    expect([
      typedLength(38.1, 'in'),
      typedLength(2, 'in'),
      typedLength(2, 'mm'),
      typedLength(null, 'in'),
    ]).toEqual(['1.5', '2 mm', '2', ''])
  })
})

describe('The shop’s settings as typed', () => {
  const typed = {
    version: 0,
    name: 'Tidewrack Fabrication',
    addressText: '',
    contactText: '',
    currency: 'usd',
    lengthUnit: 'in',
    paper: 'letter',
    timeZone: 'America/New_York',
    taxName: 'Sales tax',
    taxPpm: '8.875',
    quoteValidDays: '30',
    quoteTermsText: '',
    pressUseFraction: '80',
    gripMm: '0',
    trimMm: '1/8',
    kerfMm: '2 mm',
  } as const

  // By hand: 8.875 percent is 88 750 millionths; 1/8 in is 3.175 mm.
  it('percent become what is counted with', () => {
    expect(shopForm({ lengthUnit: 'in', currency: 'USD' }).parse(typed)).toMatchObject({
      currency: 'USD',
      taxPpm: 88_750,
      pressUseFraction: 0.8,
      trimMm: 3.175,
      kerfMm: 2,
    })
  })

  it('a currency or time zone that does not exist is refused', () => {
    expect(currencyText.safeParse('DOL').success).toBe(false)
    expect(timeZoneText.safeParse('America/Tidewrack').success).toBe(false)
    expect(timeZoneText.safeParse('Europe/Oslo').success).toBe(true)
  })
})
