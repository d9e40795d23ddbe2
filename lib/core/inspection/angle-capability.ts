import {
  type Capability,
  capability,
  cpInterval,
  cpkInterval,
  cpkLowerBound,
} from '@/lib/core/statistics/capability'
import { individualsChart } from '@/lib/core/statistics/control-chart'
import { mean, standardDeviation } from '@/lib/core/statistics/summary'

/** Below the first no index is said; below the second only what it surely reaches. */
export const capabilityFrom = 5
export const capabilityInFullFrom = 20

export type AngleCapability =
  | { said: 'too-few'; count: number; lacking: number }
  | { said: 'no-spread'; count: number; meanDeg: number }
  | {
      said: 'bound' | 'full'
      count: number
      meanDeg: number
      sdDeg: number
      index: Capability
      cp: { low: number; high: number }
      cpk: { low: number; high: number }
      /** One-sided, 95 percent. */
      cpkAtLeast: number
      /** Places of the readings outside the natural limits, and of runs of eight on one side. */
      outside: readonly number[]
      runs: readonly number[]
    }

/**
 * What the first tries of a run of bends say of the process, against one tolerance.
 *   errors against +-tolerance: Cp, Cpk with 95 percent intervals; from 5 to 19 readings only the one-sided bound is to be said
 * Source: as `capability`, `cpInterval`, `cpkInterval` and `individualsChart`; the counts 5 and 20 common practice, no source.
 * Valid: errors in the order made, tolerance above zero.
 */
export function angleCapability(errorsDeg: readonly number[], toleranceDeg: number): AngleCapability {
  const count = errorsDeg.length
  if (count < capabilityFrom) return { said: 'too-few', count, lacking: capabilityFrom - count }
  const meanDeg = mean(errorsDeg)
  const sdDeg = standardDeviation(errorsDeg)
  if (!(sdDeg > 1e-9)) return { said: 'no-spread', count, meanDeg }
  const index = capability({ lower: -toleranceDeg, upper: toleranceDeg, mean: meanDeg, sd: sdDeg })
  const chart = individualsChart(errorsDeg)
  return {
    said: count < capabilityInFullFrom ? 'bound' : 'full',
    count,
    meanDeg,
    sdDeg,
    index,
    cp: cpInterval(index.cp, count),
    cpk: cpkInterval(index.cpk, count),
    cpkAtLeast: cpkLowerBound(index.cpk, count),
    outside: chart.outside,
    runs: chart.runs,
  }
}
