import type { Resolved } from '@/lib/core/spec/resolve'
import type { TemperAlloy, TemperWay } from '@/lib/core/temper/way'
import { isRuledOut, weighTemperWays } from '@/lib/core/temper/ways'

/** What a warning begins with where the filler asked for cracks the tube, or melts where the tube loses its temper. */
export const fillerRefused = 'This filler can’t go into this tube'

/** What a screen or a paper says where pours and melt-outs take more than the heat budget. */
export const heatBudgetUsed = 'The heat budget is used up: the strengths no longer hold.'

/**
 * The temper each way ends in, for a table material or one that the question makes up, and what the filler that was asked
 * for does to this tube. Source: see temperWays.
 */
export function specTemper(resolved: Resolved): {
  temper: TemperWay[]
  warnings: string[]
  fillerRefusal?: string
} {
  const { alloy, material, input } = resolved
  const asked: TemperAlloy = alloy
    ? { ...alloy, yieldMPa: material.yieldMPa, tensileMPa: material.tensileMPa }
    : {
        id: '',
        family: material.family,
        temper: '',
        heatTreatable: material.family === 'aluminium',
        yieldMPa: material.yieldMPa,
        tensileMPa: material.tensileMPa,
      }
  const answers = weighTemperWays({
    alloy: asked,
    support: input.method.support,
    strap: resolved.strap !== null,
    wallMm: resolved.tube.wallMm,
    ...(resolved.filler && { filler: resolved.filler }),
    ...(input.weldedAfter !== undefined && { weldedAfter: input.weldedAfter }),
  })
  const filled = resolved.strap ? 'lowMeltStrapCold' : 'lowMeltCold'
  const asFilled = answers.find(({ way }) => way === filled)
  const temper = answers.filter((answer): answer is TemperWay => !isRuledOut(answer))
  if (input.method.support !== 'lowMelt' || !asFilled) return { temper, warnings: [] }
  if (!isRuledOut(asFilled)) return { temper, warnings: asFilled.exposureUsed > 1 ? [heatBudgetUsed] : [] }
  return {
    temper,
    warnings: [`${fillerRefused}: ${asFilled.because}`],
    fillerRefusal: asFilled.because,
  }
}
