import { statusWords } from '@/lib/core/materials/provenance'
import type { Heating } from '@/lib/core/temper/reheat'
import {
  exposureUsed,
  hasReheatBudget,
  hotStrengthRatio,
  REHEAT_TABLE_STATUS,
} from '@/lib/core/temper/reheat'
import type { TemperSetting, WayAnswer, WayName } from '@/lib/core/temper/way'
import { wayTitles } from '@/lib/core/temper/way'
import { WELD_CLEARANCE_MM } from '@/lib/core/temper/weld'

/** A way that doesn't come into question. */
export const ruleOut = (way: WayName, because: string): WayAnswer => ({
  way,
  title: wayTitles[way],
  because,
})

/** What the shop may design on: the lowest specified strength, the typical one where none is specified. */
export function designStrengths(setting: TemperSetting): {
  yieldMPa: number
  tensileMPa: number
  notes: readonly string[]
} {
  const { alloy } = setting
  const hasMinimum = alloy.minimumYieldMPa !== undefined && alloy.minimumTensileMPa !== undefined
  return {
    yieldMPa: alloy.minimumYieldMPa ?? alloy.yieldMPa,
    tensileMPa: alloy.minimumTensileMPa ?? alloy.tensileMPa,
    notes: hasMinimum
      ? []
      : ['No lowest strength is specified for this temper: these are typical ones, not for design.'],
  }
}

/** What a weld after bending does, for ways that leave the tube in the temper it was bought in. */
export function weldNotes(setting: TemperSetting): readonly string[] {
  const { atWelds } = setting
  if (!atWelds) return []
  if (!atWelds.weldable) return [`Welding: ${atWelds.because}`]
  return [
    `Beside a weld: yield ${atWelds.yieldMPa} MPa, tensile ${atWelds.tensileMPa} MPa, ${atWelds.extentMm} mm each side (${atWelds.source}; ${statusWords[atWelds.status]}).`,
    `Keep welds at least ${WELD_CLEARANCE_MM} mm from the bend.`,
    ...(atWelds.note ? [atWelds.note] : []),
  ]
}

/** The pours and melt-outs of a filled tube. */
export function fillHeatings(setting: TemperSetting): readonly Heating[] {
  return Array.from({ length: setting.fillings }, () => [setting.pour, setting.meltOut]).flat()
}

/** Why this filler can't go into this tube, if it can't. */
export function fillerRefusal(setting: TemperSetting): string | undefined {
  const { alloy, filler } = setting
  if (alloy.family === 'titanium' && filler.containsCadmium) {
    return `${filler.name} has cadmium in it, which cracks titanium under stress: take a filler without.`
  }
  try {
    exposureUsed(fillHeatings(setting), alloy)
  } catch (error) {
    if (error instanceof RangeError) return error.message
    throw error
  }
  return undefined
}

/** Steps of filling, before and after the bending. */
export function fillSteps(setting: TemperSetting): { before: readonly string[]; after: readonly string[] } {
  const { filler, pour, meltOut } = setting
  const bath = meltOut.temperatureC < 100 ? 'hot water' : 'oil or an oven, tube bone dry'
  return {
    before: [
      'Clean the bore, coat it with light mineral oil, plug one end only.',
      `Pour ${filler.name} at ${Math.round(pour.temperatureC)} °C, slowly, tube preheated and open end up.`,
      'Chill at once in cold running water from the plugged end, then let it come to room temperature.',
    ],
    after: [
      `Melt out at ${Math.round(meltOut.temperatureC)} °C in ${bath}, both ends open; weigh what comes back.`,
      'Chill, pull through, look for residue: all of it must be out before welding or heat treatment.',
    ],
  }
}

const SPRINGBACK_FINAL = 'Full springback of the final temper: the die is made smaller for it.'

function coldWay(
  setting: TemperSetting,
  way: WayName,
  how: {
    isChosen: boolean
    strap: boolean
    filled: boolean
    steps: readonly string[]
    after?: readonly string[]
    notes: readonly string[]
    springbackNote: string
  },
): WayAnswer {
  const { alloy } = setting
  const strengths = designStrengths(setting)
  const used = how.filled ? exposureUsed(fillHeatings(setting), alloy) : 0
  return {
    way,
    title: wayTitles[way],
    isChosen: how.isChosen,
    steps: [
      ...how.steps,
      how.strap
        ? 'Lay the strap on the outside of the bend and press slowly.'
        : 'Press slowly to the angle set for the press.',
      ...(how.after ?? []),
    ],
    endTemper: alloy.temper,
    yieldMPa: strengths.yieldMPa,
    tensileMPa: strengths.tensileMPa,
    exposureUsed: used,
    springbackNote: how.springbackNote,
    ...(setting.atWelds && { atWelds: setting.atWelds }),
    notes: [
      ...how.notes,
      ...(how.filled ? heatNotes(setting, used) : []),
      ...strengths.notes,
      ...weldNotes(setting),
    ],
  }
}

function heatNotes(setting: TemperSetting, used: number): readonly string[] {
  const { alloy, meltOut, pour } = setting
  const hottestC = Math.max(meltOut.temperatureC, pour.temperatureC)
  const notes: string[] = []
  if (hasReheatBudget(alloy)) {
    const share = `${(100 * used).toFixed(used > 0 && used < 0.1 ? 1 : 0)} percent of the heat budget used.`
    notes.push(`${share} ${REHEAT_TABLE_STATUS}`)
    if (used > 1)
      notes.push(
        'Over the heat budget: the strengths above no longer hold; prove them by hardness or a tensile test.',
      )
    if (alloy.temper === 'T3')
      notes.push('The table is for artificially aged 6xxx tube; T3 starts to age instead.')
  }
  if (alloy.family === 'aluminium' && alloy.heatTreatable && alloy.temper === 'T4' && hottestC > 120) {
    notes.push('T4 tube starts to age at this heat: it bends harder the next time.')
  }
  if (alloy.family === 'aluminium' && meltOut.temperatureC > 80 && meltOut.temperatureC <= 100) {
    const weakerPct = Math.round(100 * (1 - hotStrengthRatio(meltOut.temperatureC, alloy)))
    notes.push(`Up to ${weakerPct} percent weaker while it lies in the bath; handle it cold (EN 1999-1-1).`)
  }
  return notes
}

/** Bending cold in the temper the tube was bought in: nothing, sand, or a low-melt filler in the bore. */
export function coldWays(setting: TemperSetting): readonly WayAnswer[] {
  const { part, filler } = setting
  const refusal = fillerRefusal(setting)
  const { before, after } = fillSteps(setting)
  const creep =
    'Two releases: some at the press, the rest at melt-out. The filler creeps, so read the angle at once or the next day, always the same.'
  const lowMelt = (strap: boolean): WayAnswer => {
    const way = strap ? 'lowMeltStrapCold' : 'lowMeltCold'
    if (refusal) return ruleOut(way, refusal)
    return coldWay(setting, way, {
      isChosen: part.support === 'lowMelt' && part.strap === strap,
      strap,
      filled: true,
      steps: before,
      after,
      notes: [filler.growthNote],
      springbackNote: `${SPRINGBACK_FINAL} ${creep}`,
    })
  }
  return [
    coldWay(setting, 'hollowCold', {
      isChosen: part.support === 'hollow',
      strap: part.support === 'hollow' && part.strap,
      filled: false,
      steps: [],
      notes: ['Nothing holds the section: see how far it flattens.'],
      springbackNote: SPRINGBACK_FINAL,
    }),
    coldWay(setting, 'sandCold', {
      isChosen: part.support === 'sand',
      strap: part.support === 'sand' && part.strap,
      filled: false,
      steps: ['Fill with bone-dry sand from the bottom, tamping all the way, and plug both ends.'],
      after: ['Empty, blow out with a dust mask on, and look for scoring.'],
      notes: ['The pack loosens as the tube lengthens: it holds less than metal.'],
      springbackNote: SPRINGBACK_FINAL,
    }),
    lowMelt(false),
    lowMelt(true),
  ]
}
