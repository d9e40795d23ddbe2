import { describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { carriedAsk, type EstimateInputs, firstAsk, keptInputs } from '@/lib/records/estimate/rules'
import {
  overridableRate,
  overridableRates,
  pathOf,
  rateShown,
  yieldSource,
} from '@/lib/records/estimate-rate/rules'
import { rateOverrideForm } from '@/lib/records/estimate-rate/schema'
import { wayBases } from '@/lib/records/way/rules'
import { davitGround } from '@/tests/records/estimate/ground'

const units = { lengthUnit: 'in', currency: 'USD' } as const
const typed = (over: object) =>
  rateOverrideForm(units).safeParse({
    path: 'overheadFactor',
    low: '',
    likely: '50',
    high: '',
    reason: 'weekend',
    ...over,
  })

describe('Rates that one estimate may set', () => {
  it('are all but the times, the yield and the margin, which are set on lines of their own', () => {
    const paths = overridableRates.map(pathOf)
    for (const path of [
      'labourCentsPerH.press',
      'overheadFactor',
      'contingencyFraction',
      'learning.rateFraction',
      'fillerLossFraction',
      'consumablesPerJobCents',
      'freightInCents',
      'dieMakeMinutes',
      'heatTreat.age.minimumLotCents',
      'priceRounding.stepCents',
    ]) {
      expect(paths).toContain(path)
    }
    expect(
      paths.filter((path) => path.startsWith('times.') || /firstPassYield|marginPpm/.test(path)),
    ).toEqual([])
    expect(overridableRate('times.bendMinutes')).toBeNull()
  })

  it('are typed as in the shop’s own list: 50 percent is a half, 80.00 is 8000 cents', () => {
    expect(typed({}).data).toEqual({ path: 'overheadFactor', value: 0.5, reason: 'weekend' })
    expect(typed({ path: 'labourCentsPerH.press', likely: '80.00' }).data?.value).toBe(8000)
    expect(typed({ path: 'priceRounding.direction', likely: 'nearest' }).data?.value).toBe('nearest')
  })

  it('an end left empty is the likely value, one out of order is refused where it stands', () => {
    const loss = { path: 'fillerLossFraction', likely: '3' }
    expect(typed({ ...loss, high: '6' }).data?.value).toEqual({ low: 0.03, likely: 0.03, high: 0.06 })
    const refused = typed({ ...loss, low: '4', high: '2' }).error?.issues
    expect(refused?.map(({ path }) => path.join('.'))).toEqual(['low', 'high'])
  })

  it.each([
    ['no reason', { reason: ' ' }],
    ['no number', { likely: 'half' }],
    ['no such rate', { path: 'times.bendMinutes' }],
    ['less than nothing', { likely: '-5' }],
  ])('%s is refused', (_what, over) => {
    expect(typed(over).success).toBe(false)
  })

  it('are shown with their unit, and their spread where they have one', () => {
    const shown = (path: string, value: Parameters<typeof rateShown>[0]) => {
      const line = overridableRate(path)
      return line ? rateShown(value, line, units) : ''
    }
    expect(shown('labourCentsPerH.press', 7500)).toBe('$75.00 an hour')
    expect(shown('overheadFactor', 0.35)).toBe('35 %')
    expect(shown('queueDays', { low: 1, likely: 3, high: 8 })).toBe('3 (1 to 8) days')
    expect(shown('queueDays', { low: 2, likely: 2, high: 2 })).toBe('2 days')
    expect(shown('priceRounding.direction', 'up')).toBe('up')
  })
})

describe('Where the yield comes from', () => {
  const rates = (firstPassYieldFraction: number) => ({ firstPassYieldFraction })

  it('a new shop has it from its rates and no record', () => {
    expect(yieldSource(rates(0.85), null, 'Mar 2, 2026')).toBe(
      'rates of Mar 2, 2026; no piece of this shop is on record yet',
    )
  })

  it('taken from the records it says of how many pieces, and of how many of this tube', () => {
    // By hand: 15 good of 18 with one of each added is 16 / 20 = 0.8.
    const record = { goodCount: 15, badCount: 3, tube: { goodCount: 5, badCount: 1 } }
    expect(yieldSource(rates(0.8), record, 'Mar 2, 2026')).toBe(
      'from this shop’s records, 15 of 18 pieces good the first time; of this tube 5 of 6 pieces',
    )
  })

  it('set over the records it says both', () => {
    const record = { goodCount: 1, badCount: 0, tube: { goodCount: 0, badCount: 0 } }
    expect(yieldSource(rates(0.85), record, 'Mar 2, 2026')).toBe(
      'rates of Mar 2, 2026; this shop’s records, 1 of 1 piece good the first time',
    )
  })
})

describe('An estimate taken up again', () => {
  const first = firstAsk(davitGround, wayBases(davitGround))
  const inputs = { ask: first, ground: davitGround, basis: {}, quantities: [] } as unknown as EstimateInputs
  const dearer = {
    ...davitGround,
    rates: { ...defaultShopRates, firstPassYieldFraction: 0.9, marginPpm: 250_000 },
  }

  it('follows the shop’s yield and margin where it followed them before', () => {
    expect(carriedAsk(inputs, dearer)).toMatchObject({
      yieldFraction: 0.9,
      pricing: { by: 'margin', ppm: 250_000 },
    })
  })

  it('keeps what was set for it, with the reason', () => {
    const set = {
      ...inputs,
      ask: {
        ...inputs.ask,
        yieldFraction: 0.7,
        yieldReason: 'new hand',
        pricing: { by: 'markup' as const, ppm: 500_000 },
        rateOverrides: [{ path: 'overheadFactor', value: 0.5, reason: 'weekend' }],
      },
    }
    expect(carriedAsk(set, dearer)).toEqual(set.ask)
  })

  it('kept before rates could be set has none set', () => {
    const { yieldReason: _reason, rateOverrides: _none, ...older } = inputs.ask
    expect(keptInputs({ ...inputs, ask: older }).ask).toMatchObject({ yieldReason: '', rateOverrides: [] })
  })
})
