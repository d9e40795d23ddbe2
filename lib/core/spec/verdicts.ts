import type { BendInPress } from '@/lib/core/mechanics/bend-setting'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { type Flattening, ramBearing } from '@/lib/core/mechanics/flattening'
import { reductionRadiusMm, tearRadiusMm } from '@/lib/core/mechanics/wall'
import { said } from '@/lib/core/sentence'
import type { SpecInput, Verdict } from '@/lib/core/spec/contract'
import { defaultPressUse } from '@/lib/core/spec/resolve'

export type Judged = Readonly<{
  input: SpecInput
  bent: BentTube
  bend: BendInPress
  flat: Flattening
  pressForceN: number
  /** Where the tube begins to lie on the die, the ram still bearing on a line. */
  startForceN: number
  ramTravelMm: number
  workingSpanMm: number
  /** The span at which the press has the force; null where none has. */
  pressSpanMm: number | null
  tearUtilisation: number
}>

/** What a caliper tells apart, mm. Source: common practice, no source. */
const gaugeResolutionMm = 0.02

/** Whether the section keeps its shape, by sag over height. Source of the words' limits: the shop's practice, no source. */
function flatteningVerdict({ input, bent, flat }: Judged): Verdict {
  const height = bent.tube.heightMm
  const share = flat.flangeSagMm !== null ? flat.flangeSagMm / height : (flat.ovalityPct ?? 0) / 100
  const own = input.sectionToleranceFraction
  const words: readonly (readonly [number, Verdict['verdict']])[] = [
    [0.005, 'holds'],
    [0.02, 'marks'],
    [0.05, 'flattens'],
  ]
  const word =
    own !== undefined
      ? share <= own
        ? 'holds'
        : 'flattens'
      : (words.find(([limit]) => share < limit)?.[1] ?? 'collapses')
  const limit = own ?? 0.005
  const isHeld =
    bent.support.kind !== 'hollow' && flat.flangeSagMm !== null && flat.flangeSagMm < gaugeResolutionMm
  const what = isHeld
    ? `held: less than the ${gaugeResolutionMm} mm a caliper reads, not a number to trust`
    : flat.flangeSagMm !== null
      ? `${said.mm(flat.flangeSagMm)} sag a face`
      : `${(share * 100).toFixed(2)} % out of round`
  const allowed = flat.flangeSagMm !== null ? said.mm(limit * height) : `${(limit * 100).toFixed(2)} %`
  const remedy = word === 'holds' ? '' : '; a filler, a thicker wall or a larger radius would hold it'
  return {
    check: 'flattening',
    verdict: word,
    value: share,
    limit,
    unit: 'of height',
    trust: 'screening',
    text: `${what}, ${allowed} allowed${remedy}`,
  }
}

/** Everything that is checked of a bend, each with the number behind the word. */
export function bendVerdicts(judged: Judged): Verdict[] {
  const { input, bent, bend, flat } = judged
  const list: Verdict[] = []
  const capacityKn = input.press.capacityKn * (input.press.useFraction ?? defaultPressUse)
  const forceKn = judged.pressForceN / 1000
  const remedy =
    judged.pressSpanMm === null
      ? 'no span brings it down: the free arms of a longer one would keep the whole bend'
      : `a span of about ${said.mm(judged.pressSpanMm)} would bring it down`
  list.push({
    check: 'press',
    verdict: forceKn > capacityKn ? 'refuse' : 'ok',
    value: forceKn,
    limit: capacityKn,
    unit: 'kN',
    trust: 'mechanics',
    text:
      forceKn > capacityKn
        ? `needs ${said.kN(forceKn)}, the press may give ${said.kN(capacityKn)}; ${remedy}`
        : `needs ${said.kN(forceKn)} of the ${said.kN(capacityKn)} the press may give`,
  })
  const short = bend.lever.freeMm < bent.tube.heightMm
  list.push({
    check: 'span',
    verdict: short ? 'refuse' : 'ok',
    value: bend.lever.freeMm,
    limit: bent.tube.heightMm,
    unit: 'mm',
    trust: 'exact',
    text: short
      ? `only ${said.mm(bend.lever.freeMm)} free at full angle, less than the tube's height; a span of ${said.mm(judged.workingSpanMm)} would work`
      : `${said.mm(bend.lever.freeMm)} free between die and support at full angle`,
  })
  if (input.press.strokeMm !== undefined) {
    const over = judged.ramTravelMm > input.press.strokeMm
    list.push({
      check: 'stroke',
      verdict: over ? 'refuse' : 'ok',
      value: judged.ramTravelMm,
      limit: input.press.strokeMm,
      unit: 'mm',
      trust: 'mechanics',
      text: `${said.mm(judged.ramTravelMm)} of ram travel, the press has ${said.mm(input.press.strokeMm)}${over ? '; block the supports up or shorten the span' : ''}`,
    })
  }
  const used = judged.tearUtilisation
  list.push({
    check: 'tear',
    verdict: used > 1 ? 'refuse' : used > 0.8 ? 'warn' : 'ok',
    value: used,
    limit: 1,
    unit: 'of the stretch allowed',
    trust: 'screening',
    text: `the outside uses ${(used * 100).toFixed(0)} % of the stretch allowed; a loaded radius of ${said.mm(tearRadiusMm(bent, bend.balance.neutralMm))} would use it all`,
  })
  const reduction = reductionRadiusMm(bent)
  if (reduction !== null) {
    list.push({
      check: 'reduction',
      verdict: bend.loadedRadiusMm < reduction ? 'warn' : 'ok',
      value: bend.loadedRadiusMm,
      limit: reduction,
      unit: 'mm',
      trust: 'screening',
      text: `the textbook limit from the reduction of area is a centreline radius of ${said.mm(reduction)}`,
    })
  }
  list.push(flatteningVerdict(judged))
  if (flat.fillerBearing !== null) {
    list.push({
      check: 'fillerBearing',
      verdict: flat.fillerBearing >= 1 ? 'refuse' : 'ok',
      value: flat.fillerBearing,
      limit: 1,
      unit: 'of what the filler bears',
      trust: 'screening',
      text: `the wall presses ${said.mpa(flat.pressureMPa)} on the filler`,
    })
  }
  const bearingMm = 2 * bend.phiRad * (bend.loadedRadiusMm - bent.tube.heightMm / 2)
  const wrapped = ramBearing(bent, bearingMm)
  const line = ramBearing(bent, 0)
  if (wrapped && line) {
    const limitKn = Math.min(wrapped.yieldingN, wrapped.cripplingN) / 1000
    const lineKn = Math.min(line.yieldingN, line.cripplingN) / 1000
    const startKn = judged.startForceN / 1000
    const hollow = bent.support.kind === 'hollow'
    const dents = startKn / lineKn > forceKn / limitKn
    list.push({
      check: 'ramBearing',
      verdict: hollow && (forceKn > limitKn || startKn > lineKn) ? 'warn' : 'ok',
      value: dents ? startKn : forceKn,
      limit: dents ? lineKn : limitKn,
      unit: 'kN',
      trust: 'screening',
      text: `hollow side walls carry ${said.kN(lineKn)} as a line at the start, where ${said.kN(startKn)} press, and ${said.kN(limitKn)} over the wrapped die, no resistance factor${hollow ? '' : '; the filler carries part of it here'}`,
    })
  }
  return list
}
