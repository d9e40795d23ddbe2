import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { alloyById } from '@/lib/core/materials/alloys'
import { allowedMinutes, exposureUsed, hasReheatBudget, hotStrengthRatio } from '@/lib/core/temper/reheat'
import { celsiusFromFahrenheit } from '@/lib/core/units'

const t6 = { family: 'aluminium', temper: 'T6', heatTreatable: true } as const

describe('reheat budget of aged aluminium', () => {
  it.each([
    // Aluminum Association fabrication guidance, from memory, low end of each range.
    [300, 6000],
    [325, 3000],
    [350, 480],
    [375, 60],
    [400, 30],
    [425, 15],
    [450, 5],
  ])('allows at %d F %d minutes in all', (temperatureF, minutes) => {
    expect(allowedMinutes(celsiusFromFahrenheit(temperatureF))).toBeCloseTo(minutes, 6)
  })
  it('runs log time straight against one over kelvin between two rows', () => {
    // By hand: halfway in 1/T between 350 F (449.817 K) and 375 F (463.706 K) is T = 2 / (1/449.817 + 1/463.706) = 456.656 K = 183.506 °C;
    // the time there is the geometric mean, sqrt(480 * 60) = 169.706 min.
    expect(allowedMinutes(2 / (1 / 449.81667 + 1 / 463.70556) - 273.15)).toBeCloseTo(169.706, 2)
  })
  it('adds up shares: half the time at each of two temperatures is the whole budget', () => {
    const heatings = [
      { temperatureC: celsiusFromFahrenheit(350), minutes: 240 },
      { temperatureC: celsiusFromFahrenheit(400), minutes: 15 },
    ]
    expect(exposureUsed(heatings, t6)).toBeCloseTo(1, 9)
  })
  it('counts a 95 °C bath as nothing, however long', () => {
    expect(exposureUsed([{ temperatureC: 95, minutes: 100_000 }], t6)).toBe(0)
  })
  it('refuses heat above the table, where 500 F is not permitted', () => {
    expect(() => exposureUsed([{ temperatureC: 260, minutes: 1 }], t6)).toThrow(RangeError)
    expect(() => exposureUsed([{ temperatureC: 233, minutes: 1 }], t6)).toThrow(/232/)
  })
  it('refuses a time below zero and a temperature that is no number', () => {
    expect(() => exposureUsed([{ temperatureC: 95, minutes: -1 }], t6)).toThrow(RangeError)
    expect(() => exposureUsed([{ temperatureC: Number.NaN, minutes: 1 }], t6)).toThrow(RangeError)
  })
  it('refuses a temperature that is no number for metal without a budget too', () => {
    const steel = { family: 'steel', temper: 'N', heatTreatable: false } as const
    expect(exposureUsed([{ temperatureC: 400, minutes: 10 }], steel)).toBe(0)
    expect(() => exposureUsed([{ temperatureC: Number.NaN, minutes: 1 }], steel)).toThrow(RangeError)
  })
  it('allows less time the hotter it gets', () => {
    const temperature = fc.double({ min: 149, max: 232, noNaN: true })
    fc.assert(
      fc.property(temperature, temperature, (one, other) => {
        const [cooler, hotter] = one < other ? [one, other] : [other, one]
        expect(allowedMinutes(hotter)).toBeLessThanOrEqual(allowedMinutes(cooler) * (1 + 1e-12))
      }),
    )
  })
  it('is a budget of aged heat-treatable aluminium only', () => {
    const has = (id: string): boolean => hasReheatBudget(alloyById(id) ?? t6)
    expect(['6061-T6', '6063-T5', '6063-T832', '7005-T53'].every(has)).toBe(true)
    expect(['6061-O', '6061-T4', '5052-H32', '4130-N', 'CP-Ti-2', 'C12200-H55'].some(has)).toBe(false)
  })
})

describe('a temper nobody has named', () => {
  it('counts as aged where the aluminium can be heat treated', () => {
    expect(hasReheatBudget({ family: 'aluminium', temper: '', heatTreatable: true })).toBe(true)
    expect(hasReheatBudget({ family: 'steel', temper: '', heatTreatable: true })).toBe(false)
  })
})

describe('strength while hot', () => {
  it('is 0.90 at 90 °C and 0.80 at 100 °C for 6xxx, 0.95 and 0.90 for 5xxx (EN 1999-1-1)', () => {
    expect(hotStrengthRatio(90, { heatTreatable: true })).toBeCloseTo(0.9, 9)
    expect(hotStrengthRatio(100, { heatTreatable: true })).toBeCloseTo(0.8, 9)
    expect(hotStrengthRatio(90, { heatTreatable: false })).toBeCloseTo(0.95, 9)
    expect(hotStrengthRatio(20, { heatTreatable: true })).toBe(1)
    expect(() => hotStrengthRatio(101, { heatTreatable: true })).toThrow(RangeError)
  })
})
