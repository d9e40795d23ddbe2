import { statusWords } from '@/lib/core/materials/provenance'
import { designStrengths, fillerRefusal, fillSteps, ruleOut, weldNotes } from '@/lib/core/temper/cold-ways'
import { exposureUsed, hasReheatBudget, REHEAT_TABLE_STATUS } from '@/lib/core/temper/reheat'
import type { HeatTreatment, Soak } from '@/lib/core/temper/schedules'
import { heatTreatmentOf, softStateOf } from '@/lib/core/temper/schedules'
import type { TemperSetting, TemperWay, WayAnswer } from '@/lib/core/temper/way'
import { wayTitles } from '@/lib/core/temper/way'
import { WELD_CLEARANCE_MM, weldStrength } from '@/lib/core/temper/weld'

const soakWords = (soak: Soak): string => `${Math.round(soak.temperatureC)} °C for ${soak.hours} h`
const ageingWords = (ages: readonly Soak[]): string => ages.map(soakWords).join(', then ')
const statusNote = (treatment: HeatTreatment): string =>
  treatment.status === 'verified'
    ? `Schedule: ${treatment.source}.`
    : `Schedule: ${treatment.source} (${statusWords[treatment.status]}).`

type Made = Omit<TemperWay, 'title' | 'isChosen' | 'atWelds'>

function made(setting: TemperSetting, way: Made): WayAnswer {
  return {
    title: wayTitles[way.way],
    isChosen: false,
    ...way,
    ...(setting.atWelds && { atWelds: setting.atWelds }),
    notes: [...way.notes, ...weldNotes(setting)],
  }
}

function supportSteps(setting: TemperSetting): { before: readonly string[]; after: readonly string[] } {
  if (setting.part.support === 'sand')
    return { before: ['Pack with bone-dry sand and plug.'], after: ['Empty the sand.'] }
  if (setting.part.support === 'lowMelt' && !fillerRefusal(setting)) return fillSteps(setting)
  return { before: [], after: [] }
}

function bentInT4(setting: TemperSetting): WayAnswer {
  const { alloy } = setting
  const treatment = heatTreatmentOf(alloy)
  if (alloy.family !== 'aluminium' || !alloy.heatTreatable) {
    return ruleOut(
      'bentInT4ThenAged',
      'Only heat-treatable aluminium has a T4 to bend in and an ageing to follow.',
    )
  }
  if (!treatment)
    return ruleOut('bentInT4ThenAged', `No heat treatment is known for ${alloy.id || 'this alloy'}.`)
  if (!treatment.bendsInT4) {
    return ruleOut(
      'bentInT4ThenAged',
      'This alloy ages at room temperature too fast, or isn’t aged further, for bending in T4 to pay.',
    )
  }
  const { before, after } = supportSteps(setting)
  const isT4 = alloy.temper === 'T4'
  return made(setting, {
    way: 'bentInT4ThenAged',
    steps: [
      isT4
        ? 'Take the T4 tube as it is.'
        : 'Buy the tube in T4, or have straight stock solution treated and quenched.',
      ...before,
      'Bend within days of the solution treatment.',
      ...after,
      `Age at ${ageingWords(treatment.age)}, thermocouple on the part, chart kept.`,
      'Prove it by hardness on a piece that went with it.',
    ],
    endTemper: treatment.agedTemper,
    yieldMPa: treatment.agedYieldMPa,
    tensileMPa: treatment.agedTensileMPa,
    exposureUsed: 0,
    springbackNote:
      'T4 yields at about half of T6, so it springs back about half as far; ageing moves the angle next to nothing.',
    notes: [
      'No second quench, so no quench distortion. More than 5 to 10 percent strain can cost a few percent of peak strength (from memory).',
      statusNote(treatment),
    ],
  })
}

function annealedBentTreated(setting: TemperSetting): WayAnswer {
  const { alloy } = setting
  const way = 'annealedBentTreated' as const
  const { before, after } = supportSteps(setting)
  const treatment = heatTreatmentOf(alloy)
  if (treatment) {
    const aged =
      treatment.age.length > 0
        ? `Age at ${ageingWords(treatment.age)}.`
        : `Leave ${treatment.ageNaturallyHours} h at room temperature.`
    return made(setting, {
      way,
      steps: [
        ...(alloy.temper === 'O'
          ? []
          : [`Anneal at ${soakWords(treatment.anneal)}; ${treatment.annealCooling}.`]),
        ...before,
        'Bend soft.',
        ...after,
        `Solution treat at ${Math.round(treatment.solutionC[0])}${treatment.solutionC[1] > treatment.solutionC[0] ? ` to ${Math.round(treatment.solutionC[1])}` : ''} °C, quench in water within seconds of opening the door.`,
        'Straighten at once, before it ages.',
        aged,
        'Prove it by hardness on a piece that went with it.',
      ],
      endTemper: treatment.agedTemper,
      yieldMPa: treatment.agedYieldMPa,
      tensileMPa: treatment.agedTensileMPa,
      exposureUsed: 0,
      springbackNote:
        'Soft tube hardly springs back, but the quench bends it again: expect to straighten, and don’t promise a close angle.',
      notes: [
        'The quench distorts: fixtures help, close tolerances won’t hold.',
        'Filler left in the bore melts into the wall in the furnace: the bore must be clean.',
        ...(alloy.temper === 'T832'
          ? ['T832 is partly cold work: the part ends in T6, weaker than it was bought.']
          : []),
        statusNote(treatment),
      ],
    })
  }
  const soft = softStateOf(alloy)
  if (!soft) {
    return ruleOut(
      way,
      alloy.family === 'aluminium' && alloy.heatTreatable
        ? `No heat treatment is known for ${alloy.id || 'this alloy'}.`
        : 'The tube is soft already, or annealing gains nothing: bend it cold as it is.',
    )
  }
  return made(setting, {
    way,
    steps: [soft.step, ...before, 'Bend soft.', ...after],
    endTemper: soft.endTemper,
    yieldMPa: soft.yieldMPa,
    tensileMPa: soft.tensileMPa,
    exposureUsed: 0,
    springbackNote: 'Soft tube springs back less, in step with its yield.',
    notes: [soft.note, 'Temperatures are from memory, not checked.'],
  })
}

function hotWay(setting: TemperSetting): WayAnswer {
  const { alloy, hot } = setting
  const strengths = designStrengths(setting)
  const bend = 'Bend while hot; a low-melt filler can’t be used, dry sand can.'
  const springbackNote = 'Hot tube springs back less, but by how much depends on the heat: make trial pieces.'
  if (alloy.family === 'aluminium') {
    if (alloy.temper === 'O') return ruleOut('hot', 'Annealed aluminium bends cold; heat gains nothing.')
    if (alloy.temper === 'T4') return ruleOut('hot', 'Heat starts to age T4 tube, here more and there less.')
    if (hasReheatBudget(alloy)) {
      let used: number
      try {
        used = exposureUsed([hot], alloy)
      } catch (error) {
        if (error instanceof RangeError) return ruleOut('hot', error.message)
        throw error
      }
      return made(setting, {
        way: 'hot',
        steps: [
          `Heat to ${Math.round(hot.temperatureC)} °C, no more than ${hot.minutes} min in all, by crayon or thermocouple: aluminium shows no colour.`,
          bend,
        ],
        endTemper: alloy.temper,
        yieldMPa: strengths.yieldMPa,
        tensileMPa: strengths.tensileMPa,
        exposureUsed: used,
        springbackNote,
        notes: [
          `Loses about 5 percent when the whole heat budget is used. ${REHEAT_TABLE_STATUS}`,
          ...(used > 1 ? ['Over the heat budget: the strengths above no longer hold.'] : []),
        ],
      })
    }
  }
  if (alloy.family === 'titanium') {
    return made(setting, {
      way: 'hot',
      steps: [
        'Warm to 200 to 315 °C, clean and free of cadmium, zinc and lead, evenly by oven or heated die.',
        bend,
      ],
      endTemper: alloy.temper,
      yieldMPa: strengths.yieldMPa,
      tensileMPa: strengths.tensileMPa,
      exposureUsed: 0,
      springbackNote,
      notes: ['Below 425 °C the temper stays. Temperatures are from memory, not checked.'],
    })
  }
  if (alloy.family === 'stainless') {
    return made(setting, {
      way: 'hot',
      steps: ['Heat to 1040 to 1120 °C.', bend, 'Solution anneal and quench, then pickle.'],
      endTemper: 'annealed',
      yieldMPa: strengths.yieldMPa,
      tensileMPa: strengths.tensileMPa,
      exposureUsed: 0,
      springbackNote,
      notes: [
        'Time between 425 and 815 °C makes it rust at the grain boundaries: that is what the anneal is for. Bending cold is the usual way.',
      ],
    })
  }
  const soft = softStateOf(alloy)
  const isSteel = alloy.family === 'steel'
  if (!soft && !isSteel) return ruleOut('hot', 'The tube is soft already; heat gains nothing.')
  return made(setting, {
    way: 'hot',
    steps: [
      isSteel ? 'Heat to 870 to 980 °C, cherry red to orange.' : 'Heat evenly to the annealing temperature.',
      bend,
      'Cool in still air.',
    ],
    endTemper: soft?.endTemper ?? 'about normalized',
    yieldMPa: Math.min(soft?.yieldMPa ?? 241, strengths.yieldMPa),
    tensileMPa: Math.min(soft?.tensileMPa ?? 345, strengths.tensileMPa),
    exposureUsed: 0,
    springbackNote,
    notes: [
      soft?.note ?? 'Heat takes the cold-formed strength away: normalized 1020 is taken.',
      'Temperatures are from memory, not checked.',
    ],
  })
}

function mitredWelded(setting: TemperSetting): WayAnswer {
  const { alloy, part } = setting
  const weld = weldStrength(alloy, part.wallMm)
  if (!weld.weldable) return ruleOut('mitredWelded', weld.because)
  const notes = [
    `Within ${weld.extentMm} mm of each weld; the tube between keeps ${alloy.temper}. Source: ${weld.source}; ${statusWords[weld.status]}.`,
    ...(weld.note ? [weld.note] : []),
  ]
  return {
    way: 'mitredWelded',
    title: wayTitles.mitredWelded,
    isChosen: false,
    steps: [
      'Cut the mitres, clean to bare metal, tack in a fixture.',
      'Weld with interpass control, let cool, check the angle.',
      'Look at every weld; dye-penetrant where it matters.',
    ],
    endTemper: `${alloy.temper}, as welded at the joints`,
    yieldMPa: weld.yieldMPa,
    tensileMPa: weld.tensileMPa,
    exposureUsed: 0,
    springbackNote: 'No springback; welds pull the angle as they cool.',
    atWelds: weld,
    notes,
  }
}

function sentOut(setting: TemperSetting): WayAnswer {
  const strengths = designStrengths(setting)
  return made(setting, {
    way: 'sentOut',
    steps: [
      'Ask how they bend it: mandrel, induction or roll, and in which temper.',
      'Ask for the final temper by hardness and for the certificate to come back with the part.',
    ],
    endTemper: setting.alloy.temper,
    yieldMPa: strengths.yieldMPa,
    tensileMPa: strengths.tensileMPa,
    exposureUsed: 0,
    springbackNote: 'Theirs to allow for: give them the final angle and its tolerance.',
    notes: [
      'Strengths hold where they bend cold in this temper; another route ends as the rows above say.',
      ...strengths.notes,
      ...(setting.atWelds
        ? []
        : [`If it is welded later, tell them to leave ${WELD_CLEARANCE_MM} mm straight beside the bend.`]),
    ],
  })
}

/** Ways that change the temper, or leave the bending to a weld or to someone else. */
export function heatedWays(setting: TemperSetting): readonly WayAnswer[] {
  return [
    bentInT4(setting),
    annealedBentTreated(setting),
    hotWay(setting),
    mitredWelded(setting),
    sentOut(setting),
  ]
}
