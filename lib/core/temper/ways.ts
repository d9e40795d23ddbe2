import { meltsInOpenWater } from '@/lib/core/materials/fill'
import { defaultFiller } from '@/lib/core/materials/fillers'
import type { LowMeltFiller } from '@/lib/core/materials/low-melt'
import { coldWays } from '@/lib/core/temper/cold-ways'
import { heatedWays } from '@/lib/core/temper/heated-ways'
import type { Heating } from '@/lib/core/temper/reheat'
import type { RuledOut, TemperPart, TemperSetting, TemperWay, WayAnswer } from '@/lib/core/temper/way'
import { weldStrength } from '@/lib/core/temper/weld'

const POUR_ABOVE_LIQUIDUS_K = 20
const MELT_OUT_ABOVE_LIQUIDUS_K = 15

/** Pour 20 K above melting for 5 minutes, preheat counted in. Common practice, no source. */
export const defaultPour = (filler: LowMeltFiller): Heating => ({
  temperatureC: filler.liquidusC + POUR_ABOVE_LIQUIDUS_K,
  minutes: 5,
})

/**
 * Melt out for 30 minutes: in water at 95 °C where the filler melts at 85 °C or below, else 15 K above melting in oil or an oven.
 * Common practice, no source.
 */
export const defaultMeltOut = (filler: LowMeltFiller): Heating => ({
  temperatureC: meltsInOpenWater(filler) ? 95 : filler.liquidusC + MELT_OUT_ABOVE_LIQUIDUS_K,
  minutes: 30,
})

/** Warm bending of aged aluminium: 204 °C (400 F) for 5 minutes. Common practice, no source. */
export const defaultHot: Heating = { temperatureC: 204, minutes: 5 }

function readSetting(part: TemperPart): TemperSetting {
  const filler = part.filler?.kind === 'lowMelt' ? part.filler : defaultFiller
  const fillings = part.fillings ?? 1
  if (!Number.isInteger(fillings) || fillings < 1)
    throw new RangeError(`a tube is filled once or more, not ${fillings} times`)
  return {
    part,
    alloy: part.alloy,
    filler,
    pour: part.pour ?? defaultPour(filler),
    meltOut: part.meltOut ?? defaultMeltOut(filler),
    hot: part.hot ?? defaultHot,
    fillings,
    ...(part.weldedAfter && { atWelds: weldStrength(part.alloy, part.wallMm) }),
  }
}

/** Every way looked at, in the order a shop thinks of them, with those that don't come into question and why. */
export function weighTemperWays(part: TemperPart): readonly WayAnswer[] {
  const setting = readSetting(part)
  return [...coldWays(setting), ...heatedWays(setting)]
}

/** Tells a way that does not come into question from one that does. */
export const isRuledOut = (answer: WayAnswer): answer is RuledOut => 'because' in answer

/**
 * For each way of making the part: its steps, the temper and strength it ends in, and what it uses of the heat budget.
 * Source: EN 1999-1-1, the reheat table (from memory), handbook heat-treatment schedules; see reheat.ts, weld.ts and schedules.ts.
 */
export function temperWays(part: TemperPart): readonly TemperWay[] {
  return weighTemperWays(part).filter((answer): answer is TemperWay => !isRuledOut(answer))
}

/** The ways that don't come into question for this tube, each with its reason. */
export function temperWaysRuledOut(part: TemperPart): readonly RuledOut[] {
  return weighTemperWays(part).filter(isRuledOut)
}
