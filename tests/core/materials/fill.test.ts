import { describe, expect, it } from 'vitest'
import {
  chillTime,
  fillerHeatKJPerKg,
  fillMassKg,
  headPressureKPa,
  heaterMinutes,
  meltHeatKJ,
  meltOutTime,
  meltsInOpenWater,
  plugForceN,
  tubeSpecificHeatJPerKgK,
  waterForHeatKg,
} from '@/lib/core/materials/fill'
import { defaultFiller, fillerById } from '@/lib/core/materials/fillers'
import type { LowMeltFiller } from '@/lib/core/materials/low-melt'
import { KILOJOULE_PER_BTU, MPA_PER_KSI } from '@/lib/core/units'

const lowMelt = (id: string): LowMeltFiller => {
  const filler = fillerById(id)
  if (filler?.kind !== 'lowMelt') throw new RangeError(`${id} is not a low-melt filler`)
  return filler
}
const boreAreaMm2 = (boreIn: number): number => (Math.PI / 4) * (boreIn * 25.4) ** 2

describe('filling a tube', () => {
  it('weighs a 1.5 x 0.065 in tube, 36 in long, at 8.17 kg of 9.40 g/cm³ alloy', () => {
    // By hand: bore 1.370 in, 53.07 in³ = 0.8696 L; times 9.40 = 8.17 kg, and 8.35 kg at 9.6.
    const fill = { boreAreaMm2: boreAreaMm2(1.37), lengthMm: 914.4 }
    expect(fillMassKg({ ...fill, densityKgM3: 9400 })).toBeCloseTo(8.17, 2)
    expect(fillMassKg({ ...fill, densityKgM3: 9600 })).toBeCloseTo(8.35, 2)
  })
  it('weighs a 2.0 x 0.125 in tube, 48 in long, at 17.8 kg', () => {
    expect(fillMassKg({ boreAreaMm2: boreAreaMm2(1.75), lengthMm: 1219.2, densityKgM3: 9400 })).toBeCloseTo(
      17.8,
      1,
    )
  })
  it('puts 12.2 psi and 80 N on the plug under 36 in of alloy in a 1.37 in bore', () => {
    // By hand: 9400 * 9.80665 * 0.9144 = 84.3 kPa = 12.2 psi (0.339 psi per inch); times 951 mm² = 80 N (18 lbf).
    const column = { heightMm: 914.4, densityKgM3: 9400, boreAreaMm2: boreAreaMm2(1.37) }
    expect(headPressureKPa(column) / MPA_PER_KSI).toBeCloseTo(12.2, 1)
    expect(headPressureKPa({ heightMm: 25.4, densityKgM3: 9400 }) / MPA_PER_KSI).toBeCloseTo(0.339, 2)
    expect(plugForceN(column)).toBeCloseTo(80, 0)
  })
  it('refuses a fill of nothing', () => {
    expect(() => fillMassKg({ boreAreaMm2: 0, lengthMm: 1, densityKgM3: 1 })).toThrow(RangeError)
    expect(() => headPressureKPa({ heightMm: -1, densityKgM3: 1 })).toThrow(RangeError)
  })
})

describe('heating a filled tube', () => {
  it('takes 41.1 kJ to melt a kilogram of the 158 alloy from 20 to 90 °C', () => {
    // By hand: 0.149*50 + 30.35 + 0.165*20 = 7.45 + 30.35 + 3.30 = 41.1 kJ/kg (17.7 Btu/lb).
    const heat = fillerHeatKJPerKg(defaultFiller, { temperatureC: 90 })
    expect(heat).toBeCloseTo(41.1, 1)
    expect((heat / KILOJOULE_PER_BTU) * 0.45359237).toBeCloseTo(17.7, 1)
  })
  it('takes 366 kJ for the filled 1.5 in tube: 8.7 kg of water by 10 K, or 4 minutes at 1.5 kW', () => {
    // By hand: 8.17*41.1 + 0.47*0.897*70 = 335.8 + 29.5 = 365.3 kJ (0.90 kJ/kgK gives 366).
    const heatKJ = meltHeatKJ({
      filler: defaultFiller,
      fillerMassKg: 8.17,
      tubeMassKg: 0.47,
      tubeSpecificHeatJPerKgK: tubeSpecificHeatJPerKgK.aluminium,
      temperatureC: 90,
    })
    expect(Math.abs(heatKJ - 366)).toBeLessThan(1.5)
    expect(waterForHeatKg(heatKJ, 10)).toBeCloseTo(8.7, 1)
    expect(Math.round(heaterMinutes(heatKJ, 1.5))).toBe(4)
  })
  it('refuses a filler that isn’t all molten, and one whose latent heat nobody knows', () => {
    expect(() => fillerHeatKJPerKg(defaultFiller, { temperatureC: 65 })).toThrow(/not all molten/)
    expect(() => fillerHeatKJPerKg(lowMelt('158-190'), { temperatureC: 100 })).toThrow(/latent heat/)
  })
})

describe('melting out and chilling', () => {
  const tube = (outsideIn: number, wallIn: number) => ({
    filler: defaultFiller,
    boreRadiusMm: (outsideIn / 2 - wallIn) * 25.4,
    outsideRadiusMm: (outsideIn / 2) * 25.4,
    densityKgM3: 9400,
  })
  it.each([
    // Worked with density 9400, L 30.35 kJ/kg, c 149, k 18, printed to 0.1 min; the third column is a still, cool bath.
    [1.0, 0.065, 3.7, 2.2, 6.9],
    [1.5, 0.065, 6.6, 3.9, 11.8],
    [2.0, 0.125, 8.6, 5.1, 15.0],
  ])(
    'melts %d x %d in tube out in %d min at 85 °C, %d at 95 °C, %d in a still bath at 85 °C',
    (outsideIn, wallIn, at85, at95, still) => {
      const bore = tube(outsideIn, wallIn)
      expect(Math.abs(meltOutTime({ ...bore, bathC: 85, filmWPerM2K: 600 }).minutes - at85)).toBeLessThan(
        0.11,
      )
      expect(Math.abs(meltOutTime({ ...bore, bathC: 95, filmWPerM2K: 600 }).minutes - at95)).toBeLessThan(
        0.11,
      )
      expect(Math.abs(meltOutTime({ ...bore, bathC: 85, filmWPerM2K: 300 }).minutes - still)).toBeLessThan(
        0.21,
      )
    },
  )
  it('freezes as fast as it melts when the temperature difference is the same', () => {
    const bore = tube(1.5, 0.065)
    const melting = meltOutTime({ ...bore, bathC: 90, filmWPerM2K: 600 })
    expect(chillTime({ ...bore, waterC: 50, filmWPerM2K: 600 }).minutes).toBeCloseTo(melting.minutes, 9)
  })
  it('halves the time when the bath is twice as far above melting', () => {
    const bore = tube(1.5, 0.065)
    const slow = meltOutTime({ ...bore, bathC: 80, filmWPerM2K: 600 }).minutes
    expect(meltOutTime({ ...bore, bathC: 90, filmWPerM2K: 600 }).minutes).toBeCloseTo(slow / 2, 9)
  })
  it('refuses a bath too cold to melt it and water too warm to freeze it', () => {
    const bore = tube(1.5, 0.065)
    expect(() => meltOutTime({ ...bore, bathC: 70, filmWPerM2K: 600 })).toThrow(RangeError)
    expect(() => chillTime({ ...bore, waterC: 70, filmWPerM2K: 600 })).toThrow(RangeError)
  })
  it('lets the 158 alloy, not 203, 255 or 281, be melted out in open water', () => {
    expect(['158', '203', '255', '281'].map((id) => meltsInOpenWater(lowMelt(id)))).toEqual([
      true,
      false,
      false,
      false,
    ])
  })
})
