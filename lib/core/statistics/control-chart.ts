import { logGamma } from '@/lib/core/statistics/gamma'
import { normalCdf, normalDensity } from '@/lib/core/statistics/normal'
import { mean } from '@/lib/core/statistics/summary'

/** Factors of control charts for subgroups of n. */
export interface ChartConstants {
  readonly d2: number
  readonly d3: number
  readonly c4: number
  readonly a2: number
  readonly a3: number
  readonly lowerRange: number
  readonly upperRange: number
  readonly lowerSd: number
  readonly upperSd: number
  readonly e2: number
}

/**
 * Control chart factors of a subgroup size; lower and upper range are D3 and D4, lower and upper sd are B3 and B4.
 *   range distribution F(r) = n integral of p(x) (P(x+r) - P(x))^(n-1) dx;  d2 = integral of 1 - F;  d3^2 = integral of 2 r (1 - F), less d2^2
 *   c4 = sqrt(2/(n-1)) G(n/2) / G((n-1)/2);  A2 = 3/(d2 sqrt n), A3 = 3/(c4 sqrt n), D = 1 -+ 3 d3/d2 (not below 0), B = 1 -+ 3 sqrt(1-c4^2)/c4, E2 = 3/d2
 * Source: L. H. C. Tippett, Biometrika 17 (1925) 364; tables in ASTM MNL 7 and Montgomery. Valid: n from 2 to 25, normal readings.
 */
export function chartConstants(subgroupSize: number): ChartConstants {
  if (!Number.isInteger(subgroupSize) || subgroupSize < 2 || subgroupSize > 25) {
    throw new RangeError(`Subgroups of 2 to 25 have chart factors, not ${subgroupSize}.`)
  }
  const n = subgroupSize
  const { d2, d3 } = rangeMoments(n)
  const c4 = Math.sqrt(2 / (n - 1)) * Math.exp(logGamma(n / 2) - logGamma((n - 1) / 2))
  const sdSpread = (3 * Math.sqrt(1 - c4 * c4)) / c4
  return {
    d2,
    d3,
    c4,
    a2: 3 / (d2 * Math.sqrt(n)),
    a3: 3 / (c4 * Math.sqrt(n)),
    lowerRange: Math.max(0, 1 - (3 * d3) / d2),
    upperRange: 1 + (3 * d3) / d2,
    lowerSd: Math.max(0, 1 - sdSpread),
    upperSd: 1 + sdSpread,
    e2: 3 / d2,
  }
}

export interface IndividualsChart {
  readonly mean: number
  readonly meanMovingRange: number
  readonly lowerLimit: number
  readonly upperLimit: number
  readonly movingRangeUpperLimit: number
  /** Places of readings outside the limits. */
  readonly outside: readonly number[]
  /** Places at which eight readings in a row have stayed on one side of the mean. */
  readonly runs: readonly number[]
}

/**
 * Control chart of single readings with moving ranges of two.
 *   mean -+ 3 MR / 1.128;  moving ranges up to 3.267 MR
 * Source: NIST/SEMATECH e-Handbook 6.3.2.2; run of eight from the Western Electric rules. Valid: two readings or more, in the order made.
 */
export function individualsChart(readings: readonly number[]): IndividualsChart {
  if (readings.length < 2) throw new RangeError('A chart of single readings needs two or more.')
  const ranges = readings.slice(1).map((reading, index) => Math.abs(reading - (readings[index] ?? reading)))
  const middle = mean(readings)
  const meanMovingRange = mean(ranges)
  const reach = (3 * meanMovingRange) / 1.128
  const places = (test: (reading: number, index: number) => boolean): number[] =>
    readings.flatMap((reading, index) => (test(reading, index) ? [index] : []))
  return {
    mean: middle,
    meanMovingRange,
    lowerLimit: middle - reach,
    upperLimit: middle + reach,
    movingRangeUpperLimit: 3.267 * meanMovingRange,
    outside: places((reading) => Math.abs(reading - middle) > reach),
    runs: places((_, index) => sameSide(readings.slice(Math.max(0, index - 7), index + 1), middle)),
  }
}

function sameSide(lastReadings: readonly number[], middle: number): boolean {
  if (lastReadings.length < 8) return false
  return (
    lastReadings.every((reading) => reading > middle) || lastReadings.every((reading) => reading < middle)
  )
}

/** Mean and standard deviation of the range of n standard normal readings, Simpson's rule over the range, step 0.05. */
function rangeMoments(n: number): { d2: number; d3: number } {
  const step = 0.05
  const half = 160
  const below = Array.from({ length: 4 * half + 1 }, (_, i) => normalCdf((i - half) * step))
  const density = Array.from({ length: 2 * half + 1 }, (_, i) => normalDensity((i - half) * step))
  let first = 0
  let square = 0
  // A range of 16 standard deviations never comes, so the last point adds nothing.
  for (let k = 0; k < 2 * half; k += 1) {
    const rangeAtMost =
      n *
      step *
      density.reduce((sum, at, i) => sum + at * ((below[i + k] ?? 1) - (below[i] ?? 0)) ** (n - 1), 0)
    const weight = ((k === 0 ? 1 : k % 2 === 1 ? 4 : 2) * step) / 3
    first += weight * (1 - rangeAtMost)
    square += weight * 2 * k * step * (1 - rangeAtMost)
  }
  return { d2: first, d3: Math.sqrt(square - first * first) }
}
