import type { Alloy } from '@/lib/core/materials/alloys'
import { celsiusFromFahrenheit, kelvinFromCelsius } from '@/lib/core/units'

/** One time at temperature: a pour, a melt-out, a preheat. */
export type Heating = Readonly<{ temperatureC: number; minutes: number }>

type ReheatRow = Readonly<{ temperatureC: number; allowedMinutes: number }>

const row = (temperatureF: number, allowedMinutes: number): ReheatRow => ({
  temperatureC: celsiusFromFahrenheit(temperatureF),
  allowedMinutes,
})

/**
 * Longest total time aged 6061-T6 and 6063-T5 or T6 may spend at a temperature for a loss of about 5 percent; times add up.
 * The low end of each range printed. At 500 F (260 °C) nothing is allowed.
 * Source: Aluminum Association fabrication guidance, FROM MEMORY and not verified. Provisional limits: don't stretch them.
 */
export const reheatTable: readonly [ReheatRow, ...ReheatRow[]] = [
  row(300, 100 * 60),
  row(325, 50 * 60),
  row(350, 8 * 60),
  row(375, 60),
  row(400, 30),
  row(425, 15),
  row(450, 5),
]

/** What a screen or a paper says beside every use of the table. */
export const REHEAT_TABLE_STATUS = 'Reheat times are from memory and not verified.'

const lowest = reheatTable[0]
const highest = reheatTable[reheatTable.length - 1] ?? lowest

export type ReheatAlloy = Pick<Alloy, 'family' | 'temper' | 'heatTreatable'>

/**
 * True where the tube has a strength by ageing that heat can take away: heat-treatable aluminium in T3 or T5 to T9,
 * or in a temper nobody has named, to be on the careful side.
 */
export function hasReheatBudget(alloy: ReheatAlloy): boolean {
  return (
    alloy.family === 'aluminium' &&
    alloy.heatTreatable &&
    (alloy.temper === '' || /^T[35-9]/.test(alloy.temper))
  )
}

/**
 * Longest total time at a temperature, in minutes; Infinity below the table.
 *   log(time) runs straight against 1/T, T in kelvin, between rows
 * Source: reheatTable. Valid: up to 232 °C (450 F); above it is refused.
 */
export function allowedMinutes(temperatureC: number): number {
  if (!Number.isFinite(temperatureC))
    throw new RangeError(`a heating needs a temperature, not ${temperatureC}`)
  if (temperatureC < lowest.temperatureC) return Infinity
  if (temperatureC > highest.temperatureC) {
    throw new RangeError(
      `no time is allowed for aged aluminium at ${Number(temperatureC.toFixed(1))} °C: the table ends at ${Math.round(highest.temperatureC)} °C`,
    )
  }
  const upperIndex = reheatTable.findIndex((candidate) => candidate.temperatureC >= temperatureC)
  const upper = reheatTable[upperIndex] ?? highest
  const lower = reheatTable[upperIndex - 1] ?? lowest
  if (upper === lower) return lower.allowedMinutes
  const inverse = (celsius: number): number => 1 / kelvinFromCelsius(celsius)
  const share =
    (inverse(temperatureC) - inverse(lower.temperatureC)) /
    (inverse(upper.temperatureC) - inverse(lower.temperatureC))
  return lower.allowedMinutes * (upper.allowedMinutes / lower.allowedMinutes) ** share
}

/**
 * Share of the time-at-temperature budget that these heatings use up; 1 is all of it.
 *   sum of minutes / allowed minutes
 * Source: linear damage sum over reheatTable (times accumulate). Valid: aged aluminium; tube without an aged strength has no
 * budget and uses 0. Below 149 °C (300 F) a heating counts nothing; above 232 °C (450 F) it is refused.
 */
export function exposureUsed(heatings: readonly Heating[], alloy: ReheatAlloy): number {
  for (const heating of heatings) {
    if (!(heating.minutes >= 0) || !Number.isFinite(heating.minutes)) {
      throw new RangeError(`a heating lasts 0 minutes or more, not ${heating.minutes}`)
    }
    if (!Number.isFinite(heating.temperatureC)) {
      throw new RangeError(`a heating needs a temperature, not ${heating.temperatureC}`)
    }
  }
  if (!hasReheatBudget(alloy)) return 0
  return heatings.reduce((sum, heating) => sum + heating.minutes / allowedMinutes(heating.temperatureC), 0)
}

/**
 * Strength left while the tube is hot, as a ratio to cold; it comes back on cooling.
 *   X = 1 - k (T - 80) / 20,  k = 0.2 for 6xxx and 7020, 0.1 for 3xxx and 5xxx
 * Source: EN 1999-1-1, 3.2.2 (service temperature). Valid: aluminium, 80 to 100 °C; 1 below.
 */
export function hotStrengthRatio(temperatureC: number, alloy: Pick<Alloy, 'heatTreatable'>): number {
  if (temperatureC <= 80) return 1
  if (temperatureC > 100) throw new RangeError(`the hot strength rule runs to 100 °C, not ${temperatureC} °C`)
  return 1 - ((alloy.heatTreatable ? 0.2 : 0.1) * (temperatureC - 80)) / 20
}
