import { type NormalBelief, updateNormal } from '@/lib/core/statistics/normal-update'
import { observedFactor } from '@/lib/core/statistics/springback-factor'

/** A bend's aim at the factor believed now, and how it moves with the factor: enough to correct it without the whole spec. */
export interface AimLine {
  readonly belief: NormalBelief
  readonly loadedDeg: number
  readonly atPressDeg: number
  readonly loadedPerFactorDeg: number
  readonly atPressPerFactorDeg: number
  /** The model's springback at the aim's loaded angle with factor 1, and how it grows with that angle. */
  readonly modelSpringbackDeg: number
  readonly modelSpringbackPerDeg: number
  readonly scatterSd: number
}

/** What was read of a try that the shop has not answered yet. */
export interface UnsentReading {
  readonly loadedAngleDeg: number
  readonly finalAngleDeg: number
  readonly gaugeSdDeg: number
}

/**
 * The aim after tries that are not yet in the shop's books.
 *   each try's factor as measured springback over the model's at its loaded angle; the belief updated by all;
 *   aim + (d aim / d factor) (new mean - old mean)
 * Source: first order about the aim; the belief as `updateNormal`. Valid: factors near the one believed; the shop's own answer replaces it.
 */
export function reAim(
  line: AimLine,
  readings: readonly UnsentReading[],
): { factor: number; loadedDeg: number; atPressDeg: number } {
  const observations = readings.flatMap(({ loadedAngleDeg, finalAngleDeg, gaugeSdDeg }) => {
    const springbackDeg =
      line.modelSpringbackDeg + line.modelSpringbackPerDeg * (loadedAngleDeg - line.loadedDeg)
    if (!(springbackDeg > 0)) return []
    return [
      observedFactor({
        loadedAngleDeg,
        measuredFinalAngleDeg: finalAngleDeg,
        modelFinalAngleDeg: loadedAngleDeg - springbackDeg,
        gaugeSdDeg,
        scatterSd: line.scatterSd,
      }),
    ]
  })
  const { mean } = updateNormal(line.belief, observations)
  const moved = mean - line.belief.mean
  return {
    factor: mean,
    loadedDeg: line.loadedDeg + line.loadedPerFactorDeg * moved,
    atPressDeg: line.atPressDeg + line.atPressPerFactorDeg * moved,
  }
}
