import { endShiftMm, intersectionPoints } from '@/lib/core/geometry/centreline'
import { selfContact } from '@/lib/core/geometry/clearance'
import { tubePath } from '@/lib/core/geometry/tube-path'
import type { BendInPress } from '@/lib/core/mechanics/bend-setting'
import { hardeningExponent } from '@/lib/core/mechanics/material-curve'
import { Impossible, type ImpossibleAt } from '@/lib/core/mechanics/refusal'
import { sectionProperties } from '@/lib/core/mechanics/section'
import type { Trace } from '@/lib/core/mechanics/trace'
import { remembered } from '@/lib/core/remembered'
import { said } from '@/lib/core/sentence'
import { answerBend, strengthSpread } from '@/lib/core/spec/bend-answer'
import {
  type BendAnswer,
  modelVersion,
  type SpecAnswer,
  type SpecInput,
  SpecRefusal,
} from '@/lib/core/spec/contract'
import { fillerAmount, partLengths } from '@/lib/core/spec/lengths'
import { type Resolved, resolveSpec } from '@/lib/core/spec/resolve'
import { specTemper } from '@/lib/core/spec/spec-temper'

const faultPath: Readonly<Record<ImpossibleAt, (bend: number) => string>> = {
  strap: () => 'method.strap',
  span: () => 'press.supportSpanMm',
  angle: (bend) => `bends[${bend}].angleDeg`,
  radius: (bend) => `bends[${bend}].centrelineRadiusMm`,
  die: () => 'die.surfaceRadiusMm',
}

/** Each bend solved; bends that are alike in angle and radius are solved once. */
function solveBends(resolved: Resolved, trace?: Trace): { answer: BendAnswer; made: BendInPress }[] {
  const bent = resolved.bentTube(1)
  const weakAndStrong = [resolved.bentTube(1 - strengthSpread), resolved.bentTube(1 + strengthSpread)]
  const done = new Map<string, { answer: BendAnswer; made: BendInPress }>()
  const faults: SpecRefusal['faults'][number][] = []
  const solved = resolved.input.bends.map((bend, index) => {
    const key = `${bend.angleDeg} ${bend.centrelineRadiusMm}`
    const known = done.get(key)
    if (known && !trace) return known
    try {
      const fresh = answerBend(resolved, bent, weakAndStrong, bend, trace?.within(`bends.${index}`))
      done.set(key, fresh)
      return fresh
    } catch (cause) {
      if (!(cause instanceof Impossible)) throw cause
      const path = faultPath[cause.at](index)
      if (!faults.some((fault) => fault.path === path))
        faults.push({ path, met: cause.met, allowed: cause.allowed })
      return null
    }
  })
  if (faults.length > 0) throw new SpecRefusal(faults)
  return solved.filter((bend) => bend !== null)
}

function shiftOf(input: SpecInput, index: number, answer: BendAnswer, trace?: Trace): number {
  const made = input.bends.map((bend, place) =>
    place === index
      ? { ...bend, angleDeg: answer.finalAngleDeg, centrelineRadiusMm: answer.finalRadiusMm }
      : bend,
  )
  const shiftMm = endShiftMm(input.bends, made, input.straightAfterMm)
  trace?.step(`/bends.${index}.endShiftMm`, {
    formula:
      'distance between the ends of the drawing and of the same with this bend at its final angle and radius',
    inputs: [
      ['final angle', answer.finalAngleDeg, '°', `/bends.${index}.finalAngleDeg`],
      ['final radius', answer.finalRadiusMm, 'mm', `/bends.${index}.finalRadiusMm`],
    ],
    value: shiftMm,
    unit: 'mm',
    source: 'geometry, all other bends and straights as drawn',
    trust: 'mechanics',
  })
  return shiftMm
}

/** Whether the drawn part runs into itself; alike for all its ways. */
const contactOf = remembered(
  (bends: SpecInput['bends'], straightAfterMm: number, tube: Resolved['tube']) =>
    selfContact(
      tubePath(
        bends.map((bend) => ({ ...bend, bentDeg: bend.angleDeg })),
        straightAfterMm,
      ),
      tube,
    ),
  32,
)

function warningsOf(
  resolved: Resolved,
  solved: readonly { answer: BendAnswer; made: BendInPress }[],
): string[] {
  const { input, tube } = resolved
  const warnings: string[] = []
  for (const [index, bend] of input.bends.entries()) {
    if (index === 0) continue
    const needed =
      Math.max(solved[index]?.made.lever.freeMm ?? 0, solved[index - 1]?.made.lever.freeMm ?? 0) +
      tube.heightMm
    if (bend.straightBeforeMm < needed) {
      warnings.push(
        `The straight of ${said.mm(bend.straightBeforeMm)} between bends ${index} and ${index + 1} is shorter than ${said.mm(needed)}: a support would stand on a bent part.`,
      )
    }
  }
  warnings.push(...outsideTheModel(resolved, solved))
  const self = contactOf(input.bends, input.straightAfterMm, tube)
  if (self.verdict !== 'clear')
    warnings.push(
      `The part ${self.verdict === 'touches' ? 'runs into itself' : 'may touch itself'}: its walls come ${said.mm(Math.abs(self.clearanceMm ?? 0))} too close.`,
    )
  if (resolved.support.kind === 'lowMelt') {
    warnings.push(creepWarning)
  }
  return warnings
}

/** Of every low-melt filling; a paper that tells the steps of a trial tells it there. */
export const creepWarning =
  'The filler creeps at room temperature: over hours the angle at the press drifts toward the final one. Measure right after bending, and melt out the same day.'

/** Past this under load the ends nearly meet, and a degree more moves travel and free length by a lot. Source: ours, no outside source. */
const nearHalfTurnDeg = 165

/** Answers that stand at the edge of what the model is made for, named once each. */
function outsideTheModel(
  resolved: Resolved,
  solved: readonly { answer: BendAnswer; made: BendInPress }[],
): string[] {
  const warnings: string[] = []
  const factor = resolved.springbackFactor
  const backDeg = Math.min(...solved.map(({ answer }) => answer.armKeptDeg))
  if (backDeg < 0)
    warnings.push(
      `With a springback factor of ${factor.toFixed(2)} an arm keeps less than nothing (${backDeg.toFixed(2)}°), which no tube does: the factor is too large for this part. Check the readings it comes from.`,
    )
  for (const [index, { answer }] of solved.entries()) {
    if (answer.loadedAngleDeg > nearHalfTurnDeg)
      warnings.push(
        `Bend ${index + 1} stands at ${answer.loadedAngleDeg.toFixed(1)}° under load: past ${nearHalfTurnDeg}° travel and force change fast and are screening only, and from 180° the press cannot make it. Try a piece, or bend it in two steps.`,
      )
  }
  return warnings
}

/** Of a part and its ways, a try's corrections and a few people at once. */
const mostKept = 128

/** The bend spec as `bendSpec` gives it, the latest answers kept: for screens and papers, which ask the same again and again. */
export const rememberedSpec: (input: SpecInput) => Readonly<SpecAnswer> = remembered(
  (input: SpecInput) => bendSpec(input),
  mostKept,
)

/**
 * The whole bend spec of a part: what the press, die and filler will do to it.
 * With a trace every number's chain is recorded while it is worked out, see `explain`. Throws SpecRefusal where the model has no answer.
 */
export function bendSpec(input: SpecInput, trace?: Trace): SpecAnswer {
  const resolved = resolveSpec(input)
  const solved = solveBends(resolved, trace)
  const section = sectionProperties(resolved.tube, trace)
  if (trace) hardeningExponent(resolved.material, trace)
  const massKgPerM = (section.areaMm2 * resolved.material.densityKgM3) / 1e6
  trace?.step('/section.massKgPerM', {
    formula: 'A * density',
    inputs: [
      ['A', section.areaMm2, 'mm²', '/section.areaMm2'],
      ['density', resolved.material.densityKgM3, 'kg/m³'],
    ],
    value: massKgPerM,
    unit: 'kg/m',
    source: 'geometry',
    trust: 'exact',
  })
  const lengths = partLengths(
    resolved,
    solved.map(({ made }) => made),
    trace,
  )
  const { temper, warnings, fillerRefusal } = specTemper(resolved)
  const filler = fillerAmount(resolved, section.boreAreaMm2, lengths.cutLengthMm, trace)
  return {
    section: {
      areaMm2: section.areaMm2,
      inertiaMm4: section.inertiaMm4,
      elasticModulusMm3: section.elasticModulusMm3,
      plasticModulusMm3: section.plasticModulusMm3,
      massKgPerM,
      boreAreaMm2: section.boreAreaMm2,
    },
    ...lengths,
    points: intersectionPoints(input.bends, input.straightAfterMm).map(([x, y, z]) => [x, y, z]),
    bends: solved.map(({ answer }, index) =>
      input.die ? { ...answer, endShiftMm: shiftOf(input, index, answer, trace) } : { ...answer },
    ),
    ...(filler && { filler }),
    temper,
    ...(fillerRefusal !== undefined && { fillerRefusal }),
    defaultsUsed: resolved.defaultsUsed,
    warnings: [...warnings, ...warningsOf(resolved, solved)],
    modelVersion,
  }
}
