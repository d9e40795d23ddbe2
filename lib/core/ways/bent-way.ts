import { type Support, type WayKey, wayNames, waySupport } from '@/lib/core/cost/ways'
import { alloyById } from '@/lib/core/materials/alloys'
import { said } from '@/lib/core/sentence'
import type { SpecAnswer, SpecInput, SpecMethod } from '@/lib/core/spec/contract'
import { pouredAlloy } from '@/lib/core/spec/shop-tools'
import { heatBudgetUsed } from '@/lib/core/spec/spec-temper'
import type { TemperWay, WayName } from '@/lib/core/temper/way'
import { temperWays, temperWaysRuledOut } from '@/lib/core/temper/ways'
import { type JudgedSpec, judgeSpec, type WayWord, worseWord } from '@/lib/core/ways/judge-spec'
import { strapToMake, type WaysQuestion } from '@/lib/core/ways/question'
import { remedies } from '@/lib/core/ways/remedy'
import { sameAlloyInTemper } from '@/lib/core/ways/soft-material'
import type { Need, ToleranceExpected, WayAnswer } from '@/lib/core/ways/way-answer'

export type BentWay = Exclude<WayKey, 'mitredWelded' | 'outside'>

export const temperName: Readonly<Record<WayKey, WayName>> = {
  hollow: 'hollowCold',
  sand: 'sandCold',
  lowMelt: 'lowMeltCold',
  lowMeltStrap: 'lowMeltStrapCold',
  t4ThenAged: 'bentInT4ThenAged',
  annealedThenSolutionAged: 'annealedBentTreated',
  mitredWelded: 'mitredWelded',
  outside: 'sentOut',
}

/** How far a quench bends a part again, plus or minus. Source: common practice, no source. */
const quenchDistortionDeg = 2
/** A die within this share of the radius wanted bends to it with the travel corrected. Source: common practice, no source. */
const dieFitsWithinFraction = 0.01

function methodOf(question: WaysQuestion, support: Support, strap: boolean): SpecMethod {
  return {
    support,
    ...(support === 'lowMelt' && question.lowMelt),
    ...(strap && { strap: question.strap ?? strapToMake(question.spec.tube) }),
  }
}

function withoutDie({ die: _die, ...spec }: SpecInput): SpecInput {
  return spec
}

/**
 * The bend spec's question for one way: its own support, strap and temper, and the die left open. What bends taught holds for
 * the material they were bent in: a way that bends another temper is asked without it.
 */
export function specOfWay(
  question: WaysQuestion,
  way: BentWay,
  chosen: { support?: Support; strap?: boolean } = {},
): SpecInput | null {
  const { support, strap } = waySupport(way, chosen)
  const method = methodOf(question, support, strap)
  const base = { ...withoutDie(question.spec), method }
  if (way !== 't4ThenAged' && way !== 'annealedThenSolutionAged') {
    const springbackFactor = question.springbackFactorOf?.(method)
    return { ...base, ...(springbackFactor !== undefined && { springbackFactor }) }
  }
  const soft = sameAlloyInTemper(question.spec.material.id ?? '', way === 't4ThenAged' ? 'T4' : 'O')
  return soft && { ...base, material: { id: soft.id } }
}

/** The temper a way ends in, or why it doesn't come into question. Custom materials are asked with their own strengths. */
export function temperOf(
  question: WaysQuestion,
  way: WayKey,
): { temper: TemperWay | null; ruledOut: string | null } {
  const { spec } = question
  const alloy = alloyById(spec.material.id ?? '')
  const filler = question.lowMelt && pouredAlloy(question.lowMelt)
  const part = {
    alloy: alloy ?? {
      id: '',
      family: spec.material.family ?? ('steel' as const),
      temper: '',
      heatTreatable: spec.material.family === 'aluminium',
      yieldMPa: spec.material.yieldMPa ?? 0,
      tensileMPa: spec.material.tensileMPa ?? 0,
    },
    support: waySupport(way).support,
    strap: waySupport(way).strap,
    wallMm: spec.tube.wallMm,
    ...(filler && { filler }),
    ...(spec.weldedAfter !== undefined && { weldedAfter: spec.weldedAfter }),
  }
  const temper = temperWays(part).find((one) => one.way === temperName[way]) ?? null
  const ruledOut = temperWaysRuledOut(part).find((one) => one.way === temperName[way])?.because ?? null
  return { temper, ruledOut }
}

/** Ways that bend soft take the lightest support that works. */
function judgeWay(
  question: WaysQuestion,
  way: BentWay,
): { judged: JudgedSpec; support: Support; strap: boolean } | null {
  const choices: readonly { support?: Support; strap?: boolean }[] =
    way === 't4ThenAged' || way === 'annealedThenSolutionAged'
      ? [{ support: 'hollow' }, { support: 'sand' }, { support: 'lowMelt' }]
      : [{}]
  let last: { judged: JudgedSpec; support: Support; strap: boolean } | null = null
  for (const chosen of choices) {
    const input = specOfWay(question, way, chosen)
    if (!input) return null
    last = { judged: judgeSpec(input), ...waySupport(way, chosen) }
    if (last.judged.word === 'yes') return last
  }
  return last
}

function toleranceOf(way: BentWay, answer: SpecAnswer): ToleranceExpected {
  const halves = answer.bends.map(({ range }) =>
    range ? (range.springbackDeg.high - range.springbackDeg.low) / 2 : null,
  )
  const fromStrength = halves.includes(null) ? null : Math.max(0, ...halves.map((half) => half ?? 0))
  const quench = way === 'annealedThenSolutionAged' ? quenchDistortionDeg : 0
  const angleDeg = fromStrength === null ? null : Math.hypot(fromStrength, quench)
  const lossFraction = Math.max(
    0,
    ...answer.bends.map((bend) => {
      const flat = bend.verdicts.find(({ check }) => check === 'flattening')
      return flat?.value ?? 0
    }),
  )
  const angle =
    angleDeg === null
      ? 'no angle can be promised: weaker or stronger tube cannot be bent this way'
      : `±${angleDeg.toFixed(1)}° on a first piece${quench > 0 ? ', the quench counted in' : ', closer once a trial piece of the same lot has been bent'}`
  return {
    angleDeg,
    sectionLossFraction: lossFraction,
    text: `${angle}; section loses ${(100 * lossFraction).toFixed(lossFraction < 0.01 ? 2 : 1)} %`,
  }
}

function needsOf(
  question: WaysQuestion,
  way: BentWay,
  judged: JudgedSpec & { solved: true },
  strap: boolean,
): Need[] {
  const { answer, input } = judged
  const mostKn = Math.max(...answer.bends.map(({ pressForceKn }) => pressForceKn))
  const capacityKn = input.press.capacityKn * (input.press.useFraction ?? 0.8)
  const needs: Need[] = [
    {
      what: 'press',
      text: `${said.kN(mostKn)} on a span of ${said.mm(input.press.supportSpanMm)}`,
      have: mostKn <= capacityKn,
    },
  ]
  const radii = [
    ...new Set(answer.bends.map(({ dieSurfaceRadiusMm }) => Number(dieSurfaceRadiusMm.toFixed(1)))),
  ]
  for (const radiusMm of radii) {
    const have = (question.dieRadiiMm ?? []).some(
      (die) => Math.abs(die - radiusMm) <= dieFitsWithinFraction * radiusMm,
    )
    needs.push({
      what: 'die',
      text: `${have ? 'die' : 'a die to make'}, surface radius ${said.mm(radiusMm)}`,
      have,
    })
  }
  if (strap && input.method.strap) {
    const { thicknessMm, widthMm } = input.method.strap
    const have = question.strap !== undefined
    needs.push({
      what: 'strap',
      text: `${have ? 'strap' : 'a strap to make'}, ${Number(thicknessMm.toFixed(3))} × ${said.mm(widthMm)}`,
      have,
    })
  }
  if (answer.filler) {
    const { massKg } = answer.filler
    const isSand = input.method.support === 'sand'
    const stockKg = question.fillerStockKg
    const short = !isSand && stockKg !== undefined && stockKg < massKg
    needs.push({
      what: 'filler',
      text: `${said.kg(massKg)} of ${isSand ? 'dry sand' : 'low-melt alloy'} a piece${short ? `; the pot holds ${said.kg(stockKg)}` : ''}`,
      have: isSand || (stockKg !== undefined && !short),
    })
  }
  if (way === 't4ThenAged')
    needs.push({ what: 'heatTreat', text: 'T4 tube, and ageing after bending', have: false })
  if (way === 'annealedThenSolutionAged') {
    needs.push({
      what: 'heatTreat',
      text: 'annealing before, solution treating, quenching and ageing after',
      have: false,
    })
  }
  return needs
}

/** Whether one bent way can be done, by what margin, and what it needs. Source: the bend model's own checks, nothing added to them. */
export function answerBentWay(question: WaysQuestion, way: BentWay): WayAnswer {
  const { temper, ruledOut } = temperOf(question, way)
  const none = { governing: null, remedies: [], mitred: null, spec: null, needs: [], temper }
  const open: ToleranceExpected = { angleDeg: null, sectionLossFraction: null, text: 'not worked out' }
  const head = { way, name: wayNames[way], ...waySupport(way) }
  const made = ruledOut === null ? judgeWay(question, way) : null
  if (!made) {
    const because =
      ruledOut ??
      'The material table has no such temper of this alloy to bend it in: enter one to work it out.'
    return { ...head, ...none, word: 'no', because, tolerance: open, warnings: [] }
  }
  const { judged, support, strap } = made
  const how = { way, name: wayNames[way], support, strap }
  if (!judged.solved) {
    const because = judged.faults.map(({ met, allowed }) => `${met}; ${allowed}`).join('. ')
    return {
      ...how,
      ...none,
      word: 'no',
      because,
      remedies: remedies(question, judged),
      tolerance: open,
      warnings: [],
    }
  }
  const tolerance = toleranceOf(way, judged.answer)
  const { word, warning } = toleranceWord(question, way, tolerance)
  const used = temper && temper.exposureUsed > 1
  const heat: WayWord = used ? 'doubtful' : 'yes'
  return {
    ...how,
    word: worseWord(judged.word, worseWord(word, heat)),
    because: judged.governing
      ? bendText(judged.governing.bendIndex, judged.answer, judged.governing.text)
      : 'nothing to bend',
    governing: judged.governing,
    remedies: remedies(question, judged),
    tolerance,
    temper,
    needs: needsOf(question, way, judged, strap),
    warnings: [
      ...new Set([
        ...(warning ? [warning] : []),
        ...(used ? [heatBudgetUsed] : []),
        ...judged.answer.warnings,
      ]),
    ],
    spec: { input: judged.input, answer: judged.answer },
    mitred: null,
  }
}

function bendText(index: number, answer: SpecAnswer, text: string): string {
  return answer.bends.length > 1 ? `bend ${index + 1}: ${text}` : text
}

function toleranceWord(
  question: WaysQuestion,
  way: BentWay,
  tolerance: ToleranceExpected,
): { word: WayWord; warning: string | null } {
  const { angleDeg } = tolerance
  const { angleToleranceDeg } = question
  if (angleDeg === null || angleDeg <= angleToleranceDeg) return { word: 'yes', warning: null }
  if (way === 'annealedThenSolutionAged') {
    return {
      word: 'doubtful',
      warning: `The quench can move an angle by ${quenchDistortionDeg}°, the part allows ±${angleToleranceDeg}°: expect to straighten before it ages.`,
    }
  }
  return {
    word: 'yes',
    warning: `A first piece may be out by ±${angleDeg.toFixed(1)}°, the part allows ±${angleToleranceDeg}°: bend a trial piece of the same lot first.`,
  }
}
