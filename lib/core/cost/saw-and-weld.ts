import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { OperationTimes } from '@/lib/core/cost/operation-times'
import { added, fixed, type ThreePoint } from '@/lib/core/cost/spread'

/**
 * Saw time of one cut.
 *   handling + area * slant / rate
 * Source: time = wall section area / cutting rate, band saw makers' charts.
 */
export function sawCutMinutes(part: CostedPart, times: OperationTimes, slantFactor: number): ThreePoint {
  return added(times.sawHandlingMinutes, fixed(slantFactor * throughWallMinutes(part, times)))
}

/**
 * Labour of welding a length of joint.
 *   length / (travel * operating factor)
 * Source: labour min/ft = 12 / (travel in/min * operating factor), TIG handbook, chapter on costs. Valid: factor above 0.
 */
export function weldLabourMinutes(jointLengthMm: number, times: OperationTimes): ThreePoint {
  const arcMinutes = jointLengthMm / times.weldSpeedMmPerMin
  return {
    low: arcMinutes / times.weldOperatingFactor.high,
    likely: arcMinutes / times.weldOperatingFactor.likely,
    high: arcMinutes / times.weldOperatingFactor.low,
  }
}

/** Saw time through the wall of one square cut, without handling: area / rate. */
export function throughWallMinutes(part: CostedPart, times: OperationTimes): number {
  return part.sectionAreaMm2 / times.sawRateMm2PerMin[part.family]
}

/** How much longer a mitre joint is than a square one: 1 / cos of half the angle between the straights. */
export function slantOf(angleDeg: number): number {
  return 1 / Math.cos((angleDeg * Math.PI) / 360)
}

/** The mean of `slantOf` over a part's bends; 1 without bends. */
export function meanSlant(part: CostedPart): number {
  const angles = part.bendAnglesDeg
  if (angles.length === 0) return 1
  return angles.reduce((sum, angleDeg) => sum + slantOf(angleDeg), 0) / angles.length
}
