import { describe, expect, it } from 'vitest'
import { defaultFiller, fillerById, fillers, lowMeltFillers } from '@/lib/core/materials/fillers'
import {
  densityBandKgM3,
  densityByMixtureKgM3,
  specificHeatByMixtureJPerKgK,
} from '@/lib/core/materials/mixture'

describe('rule of mixtures', () => {
  it('is 100 over the sum of shares over densities, not the mean of densities', () => {
    // By hand for the 158 F eutectic: 100 / (50/9.78 + 26.7/11.34 + 13.3/7.365 + 10/8.65) = 100 / 10.4287 = 9.589; the mean would be 9.762.
    expect(densityByMixtureKgM3({ Bi: 50, Pb: 26.7, Sn: 13.3, Cd: 10 })).toBeCloseTo(9589, 0)
  })
  it.each([
    // Hand calculation from element densities, g/cm³, to three decimals.
    ['255', 10.418],
    ['281', 8.596],
    ['fields', 7.974],
    ['117', 9.16],
    ['136', 9.01],
    ['158-190', 9.82],
    ['203', 9.71],
    // 100 / (57/9.78 + 17/7.365 + 26/7.31) = 100 / 11.6933; 100 / (50/9.78 + 28/11.34 + 22/7.365) = 100 / 10.5687; 100 / (40/9.78 + 60/7.365) = 100 / 12.2366.
    ['174', 8.552],
    ['roses', 9.462],
    ['281-338', 8.172],
  ])('gives filler %s a density of %d g/cm³', (id, density) => {
    expect((fillerById(id)?.densityKgM3 ?? 0) / 1000).toBeCloseTo(
      density,
      density > 9 && density < 10 ? 2 : 3,
    )
  })
  it('refuses a composition that misses 100 percent by more than 0.2, which catches the misprinted 136 alloy', () => {
    // A trade table prints 22.6 lead for the 136 F alloy: 104.6 in all.
    expect(() => densityByMixtureKgM3({ Bi: 49, Pb: 22.6, Sn: 12, In: 21 })).toThrow(RangeError)
    expect(() => densityByMixtureKgM3({ Bi: 120, Pb: -20 })).toThrow(/Pb can’t be -20 percent/)
    expect(() => densityByMixtureKgM3({ Bi: 120, Pb: Number.NaN })).toThrow(/Pb can’t be NaN/)
    // A part of nothing is no part: 55.5 and 44.5 alone.
    expect(densityByMixtureKgM3({ Bi: 55.5, Pb: 44.5, Sn: 0 })).toBe(
      densityByMixtureKgM3({ Bi: 55.5, Pb: 44.5 }),
    )
  })
  it('carries a band of 5 percent under to 1 over, in which the two densities printed for 117 and 136 lie', () => {
    for (const [id, published] of [
      ['117', 8860],
      ['136', 8580],
    ] as const) {
      const filler = fillerById(id)
      if (filler?.kind !== 'lowMelt') throw new RangeError('not a low-melt filler')
      const band = densityBandKgM3(filler.compositionPct)
      expect(band.low).toBeLessThan(published)
      expect(band.high).toBeGreaterThan(published)
    }
  })
  it('weighs specific heats by mass: 149 J/kgK for 158, 125 for 255, 196 for Field’s metal', () => {
    // By hand: 0.5*122 + 0.267*129 + 0.133*228 + 0.1*231 = 148.9
    expect(specificHeatByMixtureJPerKgK({ Bi: 50, Pb: 26.7, Sn: 13.3, Cd: 10 })).toBeCloseTo(148.9, 1)
    expect(specificHeatByMixtureJPerKgK({ Bi: 55.5, Pb: 44.5 })).toBeCloseTo(125.1, 1)
    expect(specificHeatByMixtureJPerKgK({ Bi: 32.5, Sn: 16.5, In: 51 })).toBeCloseTo(196.1, 1)
  })
})

describe('fillers', () => {
  it('lists at least ten low-melt alloys and dry sand', () => {
    expect(lowMeltFillers.length).toBeGreaterThanOrEqual(10)
    expect(fillerById('sand')?.kind).toBe('sand')
    expect(new Set(fillers.map((filler) => filler.id)).size).toBe(fillers.length)
  })
  it('takes the 158 F eutectic at 26 MPa and 12 700 MPa when nothing else is said', () => {
    expect(defaultFiller).toMatchObject({
      id: 'bi-158',
      yieldMPa: 26,
      elasticModulusMPa: 12_700,
      solidusC: 70,
      liquidusC: 70,
    })
  })
  it('melts each numbered alloy at its number in degrees Fahrenheit, within one degree Celsius (ASTM B774 naming)', () => {
    for (const id of ['117', '136', '158', '174', '203', '255', '281']) {
      const filler = fillerById(id)
      if (filler?.kind !== 'lowMelt') throw new RangeError(id)
      expect(Math.abs(filler.liquidusC - (Number(id) - 32) / 1.8)).toBeLessThan(1)
    }
  })
  it('finds an alloy by its own id or its number, capitals aside, and nothing for an unknown one', () => {
    expect(fillerById('BI-158')).toBe(fillerById('158'))
    expect(fillerById('Field’s')?.id).toBe('bi-fields')
    expect(fillerById('999')).toBeUndefined()
  })
  it('names cadmium and lead where they are in it and says nothing of them where they are not', () => {
    for (const filler of lowMeltFillers) {
      expect(filler.containsCadmium).toBe((filler.compositionPct.Cd ?? 0) > 0)
      expect(filler.hazards.some((hazard) => hazard.startsWith('Cadmium'))).toBe(filler.containsCadmium)
      expect(filler.hazards.some((hazard) => hazard.startsWith('Lead'))).toBe(filler.containsLead)
    }
    expect(lowMeltFillers.filter((filler) => filler.containsCadmium).map((filler) => filler.id)).toEqual([
      'bi-117',
      'bi-158',
      'bi-158-190',
    ])
  })
  it('gives every value of every filler a source', () => {
    for (const filler of lowMeltFillers) {
      for (const field of [
        'compositionPct',
        'solidusC',
        'densityKgM3',
        'yieldMPa',
        'elasticModulusMPa',
      ] as const) {
        expect(filler.sources[field]?.source, `${filler.id} ${field}`).toBeTruthy()
      }
    }
  })
})
