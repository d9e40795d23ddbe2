import { describe, expect, it } from 'vitest'
import { defaultShopRates, type ShopRates } from '@/lib/core/cost/shop-rates'
import { rateDifferences, rateGroups, rateKind, typedRates, wholeRates } from '@/lib/records/rates/rules'
import { ratesForm } from '@/lib/records/rates/schema'

const inches = { lengthUnit: 'in', currency: 'USD' } as const
const metric = { lengthUnit: 'mm', currency: 'EUR' } as const
const yen = { lengthUnit: 'mm', currency: 'JPY' } as const

describe('Rates on their form', () => {
  it.each([inches, metric, yen])(
    'saved again without a change they are what they were ($lengthUnit, $currency)',
    (units) => {
      const parsed = ratesForm(units).parse({
        baseId: 1,
        reasonText: 'no change',
        rates: typedRates(defaultShopRates, units),
      })
      expect(parsed.rates).toEqual(defaultShopRates)
    },
  )

  it('every number stands on the screen once, with what it means and where it came from', () => {
    const ends = (node: object, path: readonly string[] = []): string[] =>
      Object.entries(node).flatMap(([key, value]) => {
        const here = [...path, key]
        return typeof value === 'object' && !('likely' in value) ? ends(value, here) : [here.join('.')]
      })
    const lines = rateGroups.flatMap((group) => group.lines)
    expect(lines.map((line) => line.path.join('.')).sort()).toEqual(ends(defaultShopRates).sort())
    expect(lines.filter((line) => line.meaning === '' || line.source === '')).toEqual([])
  })

  it('the unit of a number is the one in its name', () => {
    expect(rateKind(['labourCentsPerH', 'press'])).toEqual({ is: 'money', unit: ' an hour' })
    expect(rateKind(['times', 'bendMinutes', 'low'])).toMatchObject({ is: 'number', unit: 'min' })
    expect(rateKind(['heatTreat', 'age', 'days', 'high'])).toMatchObject({ is: 'number', unit: 'days' })
    expect(rateKind(['overheadFactor'])).toMatchObject({ is: 'percent' })
    expect(rateKind(['endTrimMm'])).toEqual({ is: 'length' })
  })

  it('30 percent of margin is 300 000 millionths, 60.00 is 6000 cents, 1/8 inch is 3.175 mm', () => {
    const typed = typedRates(defaultShopRates, inches)
    const labour = { ...(typed.labourCentsPerH as object), press: '60.00' }
    const parsed = ratesForm(inches).parse({
      baseId: 1,
      reasonText: 'by hand',
      rates: { ...typed, marginPpm: '30', labourCentsPerH: labour, endTrimMm: '1/8' },
    })
    expect(parsed.rates).toMatchObject({
      marginPpm: 300_000,
      labourCentsPerH: { press: 6000 },
      endTrimMm: 3.175,
    })
  })

  it('a spread out of order is refused at the end that is wrong', () => {
    const typed = typedRates(defaultShopRates, metric)
    const rates = { ...typed, queueDays: { low: '4', likely: '3', high: '2' } }
    const refused = ratesForm(metric).safeParse({ baseId: 1, reasonText: 'by hand', rates }).error
    expect(refused?.issues.map(({ path }) => path.join('.'))).toEqual([
      'rates.queueDays.low',
      'rates.queueDays.high',
    ])
  })

  it('a change without a reason is refused', () => {
    const rates = typedRates(defaultShopRates, metric)
    expect(ratesForm(metric).safeParse({ baseId: 1, reasonText: ' ', rates }).success).toBe(false)
  })
})

describe('Rates as they were kept', () => {
  it('take the default for a number that a later release added, and lose one it took away', () => {
    const { endTrimMm, ...older } = defaultShopRates
    expect(wholeRates({ ...older, marginPpm: 250_000, oldRate: 5 })).toEqual({
      ...defaultShopRates,
      marginPpm: 250_000,
    })
    expect(endTrimMm).toBe(defaultShopRates.endTrimMm)
  })

  it('are told apart in words', () => {
    const after: ShopRates = {
      ...defaultShopRates,
      labourCentsPerH: { ...defaultShopRates.labourCentsPerH, press: 8000 },
      overheadFactor: 0.4,
    }
    expect(rateDifferences(defaultShopRates, after, inches)).toEqual([
      {
        path: 'labourCentsPerH.press',
        label: 'Labour, Press',
        before: '75.00 USD an hour',
        after: '80.00 USD an hour',
      },
      { path: 'overheadFactor', label: 'Overhead on labour', before: '35 %', after: '40 %' },
    ])
    expect(rateDifferences(after, after, inches)).toEqual([])
  })
})
