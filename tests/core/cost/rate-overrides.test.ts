import { describe, expect, it } from 'vitest'
import { routing } from '@/lib/core/cost/operations'
import { rateAt, usesRate, withRateOverrides } from '@/lib/core/cost/rate-overrides'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'

const reason = 'said so by the owner'

describe('Rates set for one estimate', () => {
  it('stand in their places, and the shop’s own stay as they are', () => {
    const set = withRateOverrides(defaultShopRates, [
      { path: 'overheadFactor', value: 0.5, reason },
      { path: 'labourCentsPerH.press', value: 9000, reason },
      { path: 'heatTreat.age.days', value: { low: 1, likely: 2, high: 3 }, reason },
      { path: 'priceRounding.direction', value: 'nearest', reason },
    ])
    expect(set.overheadFactor).toBe(0.5)
    expect(set.labourCentsPerH).toEqual({ ...defaultShopRates.labourCentsPerH, press: 9000 })
    expect(set.heatTreat.age.days).toEqual({ low: 1, likely: 2, high: 3 })
    expect(set.heatTreat.anneal).toEqual(defaultShopRates.heatTreat.anneal)
    expect(set.priceRounding.direction).toBe('nearest')
    expect([defaultShopRates.overheadFactor, defaultShopRates.labourCentsPerH.press]).toEqual([0.35, 7500])
  })

  it('none set leaves the very rates of the shop', () => {
    expect(withRateOverrides(defaultShopRates, [])).toBe(defaultShopRates)
  })

  it.each([
    ['a rate there is none of', { path: 'rentCents', value: 1, reason }],
    ['a branch that is no rate', { path: 'labourCentsPerH', value: 1, reason }],
    ['a name that every object has', { path: 'constructor', value: 1, reason }],
    ['another kind', { path: 'overheadFactor', value: { low: 0, likely: 1, high: 2 }, reason }],
    ['less than nothing', { path: 'freightInCents', value: -1, reason }],
    ['ends out of order', { path: 'queueDays', value: { low: 3, likely: 2, high: 8 }, reason }],
    ['no reason', { path: 'freightInCents', value: 1, reason: '  ' }],
  ])('%s is refused', (_what, override) => {
    expect(() => withRateOverrides(defaultShopRates, [override])).toThrow(RangeError)
  })

  it('a rate is found by its place', () => {
    expect(rateAt(defaultShopRates, 'labourCentsPerH.saw')).toBe(6500)
    expect(rateAt(defaultShopRates, 'fillerLossFraction')).toEqual({ low: 0.01, likely: 0.02, high: 0.05 })
  })
})

describe('Which rates count', () => {
  const part = {
    family: 'aluminium' as const,
    sectionAreaMm2: 440,
    wallMm: 3.2,
    perimeterMm: 150,
    boreAreaMm2: 1000,
    cutLengthMm: 1300,
    massKg: 1.6,
    bendAnglesDeg: [30, 20],
    planeChangeCount: 0,
    angleToleranceDeg: 1,
    startCut: 'square' as const,
    endCut: 'square' as const,
    holeCount: 0,
    featureCount: 6,
    fillerKg: 12,
    weldedEndCount: 0,
    dyePenetrant: false,
  }
  const use = (way: 'lowMelt' | 'sand') => ({
    operations: routing({ way, part, times: defaultShopRates.times }),
    support: way,
    fillerKg: way === 'lowMelt' ? 12 : 0,
    toolKinds: ['die' as const],
  })

  it('a filled bore counts filler and no sand, a packed one sand and no filler', () => {
    const does = (way: 'lowMelt' | 'sand') =>
      ['fillerCentsPerKg', 'fillerLossFraction', 'sandCentsPerLitre', 'sandLossFraction'].map((path) =>
        usesRate(path, use(way)),
      )
    expect(does('lowMelt')).toEqual([true, true, false, false])
    expect(does('sand')).toEqual([false, false, true, true])
  })

  it('welding, penetrant and heat treatment count where the way has them only', () => {
    const none = [
      'weldConsumablesCentsPerM',
      'dyePenetrantCentsPerBend',
      'heatTreat.age.centsPerKg',
      'labourCentsPerH.welding',
    ]
    expect(none.filter((path) => usesRate(path, use('lowMelt')))).toEqual([])
    const aged = {
      ...use('lowMelt'),
      operations: routing({ way: 't4ThenAged', part, times: defaultShopRates.times }),
    }
    expect(usesRate('heatTreat.age.centsPerKg', aged)).toBe(true)
    expect(usesRate('heatTreat.anneal.centsPerKg', aged)).toBe(false)
  })

  it('a die to make counts its minutes, its material and the tool maker’s hour, no strap’s', () => {
    const counts = ['dieMakeMinutes', 'dieMaterialCents', 'labourCentsPerH.toolmaking', 'strapMakeMinutes']
    expect(counts.map((path) => usesRate(path, use('sand')))).toEqual([true, true, true, false])
    expect(usesRate('labourCentsPerH.toolmaking', { ...use('sand'), toolKinds: [] })).toBe(false)
  })

  it('overhead, contingency and days always count', () => {
    for (const path of ['overheadFactor', 'contingencyFraction', 'queueDays', 'freightInCents']) {
      expect(usesRate(path, use('sand'))).toBe(true)
    }
  })
})
