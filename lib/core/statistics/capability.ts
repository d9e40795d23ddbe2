import { chiSquareQuantile } from '@/lib/core/statistics/gamma'
import { normalCdf, normalQuantile } from '@/lib/core/statistics/normal'

export interface Capability {
  readonly cp: number
  readonly cpk: number
  readonly cpUpper: number
  readonly cpLower: number
  /** Off-centre share of the half tolerance. */
  readonly offCentre: number
  /** Against the target (middle where none is given). */
  readonly cpm: number
  readonly outOfSpecFraction: number
}

/**
 * Capability of a process against two limits.
 *   Cp = (U-L)/6s;  Cpk = min((U-m)/3s, (m-L)/3s);  k = |mid - m| / ((U-L)/2);  Cpm = (U-L) / (6 sqrt(s^2 + (m-T)^2))
 * Source: NIST/SEMATECH e-Handbook 6.1.6; D. C. Montgomery, Introduction to Statistical Quality Control. Valid: normal, in control, s above 0.
 */
export function capability(process: {
  readonly lower: number
  readonly upper: number
  readonly mean: number
  readonly sd: number
  readonly target?: number
}): Capability {
  const { lower, upper, mean, sd } = process
  if (!(upper > lower)) throw new RangeError(`The upper limit ${upper} is above the lower ${lower}.`)
  if (!(sd > 0)) throw new RangeError(`A process spreads by more than zero, not ${sd}.`)
  const target = process.target ?? (lower + upper) / 2
  const cpUpper = (upper - mean) / (3 * sd)
  const cpLower = (mean - lower) / (3 * sd)
  return {
    cp: (upper - lower) / (6 * sd),
    cpk: Math.min(cpUpper, cpLower),
    cpUpper,
    cpLower,
    offCentre: Math.abs((lower + upper) / 2 - mean) / ((upper - lower) / 2),
    cpm: (upper - lower) / (6 * Math.hypot(sd, mean - target)),
    outOfSpecFraction: normalCdf((lower - mean) / sd) + normalCdf(-(upper - mean) / sd),
  }
}

/**
 * Interval of Cp.
 *   Cp sqrt(chi2(a/2, n-1) / (n-1)) .. Cp sqrt(chi2(1-a/2, n-1) / (n-1))
 * Source: Montgomery, Introduction to Statistical Quality Control, chapter on capability. Valid: two pieces or more.
 */
export function cpInterval(cp: number, count: number, confidence = 0.95): { low: number; high: number } {
  requireCount(count)
  const tail = (1 - confidence) / 2
  return {
    low: cp * Math.sqrt(chiSquareQuantile(tail, count - 1) / (count - 1)),
    high: cp * Math.sqrt(chiSquareQuantile(1 - tail, count - 1) / (count - 1)),
  }
}

/**
 * Interval of Cpk.
 *   Cpk -+ z sqrt( 1/(9n) + Cpk^2 / (2(n-1)) )
 * Source: A. F. Bissell, Applied Statistics 39 (1990) 331. Valid: an approximation, rough below about ten pieces.
 */
export function cpkInterval(cpk: number, count: number, confidence = 0.95): { low: number; high: number } {
  const reach = normalQuantile(1 - (1 - confidence) / 2) * cpkStandardError(cpk, count)
  return { low: cpk - reach, high: cpk + reach }
}

/**
 * What Cpk surely reaches, one-sided: the number to print from 5 to 20 pieces instead of the bare index.
 * Source: as `cpkInterval`.
 */
export function cpkLowerBound(cpk: number, count: number, confidence = 0.95): number {
  return cpk - normalQuantile(confidence) * cpkStandardError(cpk, count)
}

function cpkStandardError(cpk: number, count: number): number {
  requireCount(count)
  return Math.sqrt(1 / (9 * count) + cpk ** 2 / (2 * (count - 1)))
}

function requireCount(count: number): void {
  if (!Number.isInteger(count) || count < 2)
    throw new RangeError(`Capability needs two pieces or more, not ${count}.`)
}
