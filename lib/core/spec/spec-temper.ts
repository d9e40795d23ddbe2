import type { Resolved } from '@/lib/core/spec/resolve'
import type { TemperAlloy, TemperWay } from '@/lib/core/temper/way'
import { temperWays } from '@/lib/core/temper/ways'

/** The temper each way ends in, for a table material or one that the question makes up. */
export function specTemper(resolved: Resolved): TemperWay[] {
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
  return [
    ...temperWays({
      alloy: asked,
      support: input.method.support,
      strap: resolved.strap !== null,
      wallMm: resolved.tube.wallMm,
      ...(resolved.filler && { filler: resolved.filler }),
      ...(input.weldedAfter !== undefined && { weldedAfter: input.weldedAfter }),
    }),
  ]
}
