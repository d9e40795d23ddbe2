import { nextThickerGauge } from '@/lib/core/materials/wall-gauge'
import { said } from '@/lib/core/sentence'
import type { SpecInput } from '@/lib/core/spec/contract'
import { type JudgedSpec, judgeSpec } from '@/lib/core/ways/judge-spec'
import type { WaysQuestion } from '@/lib/core/ways/question'

/** One change that turns a "no" into something that can be made; the changed question was computed again to make sure. */
export interface Remedy {
  readonly change: 'span' | 'radius' | 'wall'
  readonly text: string
  readonly valueMm: number
  /** Share of the number now: the smaller, the smaller the change. */
  readonly stepFraction: number
  /** What the changed question answers. */
  readonly word: 'yes' | 'doubtful'
}

const mostGauges = 4
const mostRadiusSteps = 8
const radiusStep = 1.2

/**
 * Single changes that would make a way possible: a span, a larger bend radius, a thicker wall, smallest change first.
 * Each is found by computing the changed bend spec again, so what it says has been tried on the model.
 */
export function remedies(question: WaysQuestion, judged: JudgedSpec): Remedy[] {
  if (judged.word !== 'no') return []
  return [spanRemedy(question, judged), radiusRemedy(judged.input), wallRemedy(judged.input)]
    .filter((remedy) => remedy !== null)
    .sort((one, other) => one.stepFraction - other.stepFraction)
}

/** The shortest span, in steps of 10 mm, that is long enough and keeps the force under the press's. */
export function spanThatWorksMm(input: SpecInput, highMm: number): number | null {
  let spanMm = input.press.supportSpanMm
  for (let attempt = 0; attempt < 6; attempt += 1) {
    const judged = judgeSpec({ ...input, press: { ...input.press, supportSpanMm: spanMm } })
    const longerMm = neededSpanMm(judged, spanMm)
    if (longerMm === null) return judged.solved ? spanMm : null
    spanMm = Math.ceil(longerMm / 10) * 10
    if (spanMm > highMm) return null
  }
  return null
}

/** A span that the last answer asks for, endless where none would do; null where it asks for none. */
function neededSpanMm(judged: JudgedSpec, spanMm: number): number | null {
  if (!judged.solved) {
    return judged.faults.some(({ path }) => path === 'press.supportSpanMm') ? spanMm * 1.25 : null
  }
  let longestMm: number | null = null
  for (const bend of judged.answer.bends) {
    for (const { check, verdict } of bend.verdicts) {
      if (verdict !== 'refuse') continue
      const wanted =
        check === 'span'
          ? bend.workingSpanMm
          : check === 'press'
            ? (bend.pressSpanMm ?? Number.POSITIVE_INFINITY)
            : 0
      if (wanted > (longestMm ?? 0)) longestMm = wanted
    }
  }
  return longestMm === null ? null : Math.max(longestMm, spanMm + 1)
}

function spanRemedy(question: WaysQuestion, judged: JudgedSpec): Remedy | null {
  const nowMm = judged.input.press.supportSpanMm
  const spanMm = spanThatWorksMm(judged.input, 20_000)
  if (spanMm === null || spanMm === nowMm) return null
  const after = judgeSpec({ ...judged.input, press: { ...judged.input.press, supportSpanMm: spanMm } })
  if (after.word === 'no') return null
  const highMm = question.spanLimits?.highMm
  const beyond =
    highMm !== undefined && spanMm > highMm ? `, longer than the ${said.mm(highMm)} this press takes` : ''
  return {
    change: 'span',
    text: `a span of ${said.mm(spanMm)} instead of ${said.mm(nowMm)}${beyond}`,
    valueMm: spanMm,
    stepFraction: spanMm / nowMm - 1,
    word: after.word,
  }
}

/** Every bend at least this large; the span grows with it, so that only the radius is asked. */
function withRadius(input: SpecInput, leastMm: number, grow: number): SpecInput {
  return {
    ...input,
    bends: input.bends.map((bend) => ({
      ...bend,
      centrelineRadiusMm: Math.max(bend.centrelineRadiusMm, leastMm),
    })),
    press: { ...input.press, supportSpanMm: input.press.supportSpanMm * grow },
  }
}

function radiusRemedy(input: SpecInput): Remedy | null {
  const smallestMm = Math.min(...input.bends.map(({ centrelineRadiusMm }) => centrelineRadiusMm))
  if (!Number.isFinite(smallestMm)) return null
  for (let step = 1; step <= mostRadiusSteps; step += 1) {
    const radiusMm = Math.ceil((smallestMm * radiusStep ** step) / 5) * 5
    const same = judgeSpec(withRadius(input, radiusMm, 1))
    const after = same.word === 'no' ? judgeSpec(withRadius(input, radiusMm, radiusStep ** step)) : same
    if (after.word === 'no') continue
    const span = after === same ? '' : `, on a span of ${said.mm(after.input.press.supportSpanMm)}`
    return {
      change: 'radius',
      text: `a centreline radius of ${said.mm(radiusMm)} or more instead of ${said.mm(smallestMm)}${span}`,
      valueMm: radiusMm,
      stepFraction: radiusMm / smallestMm - 1,
      word: after.word,
    }
  }
  return null
}

function wallRemedy(input: SpecInput): Remedy | null {
  const { tube } = input
  const mostWallMm = Math.min(tube.widthMm, tube.heightMm) / 2
  let wallMm = tube.wallMm
  for (let step = 0; step < mostGauges; step += 1) {
    const next = nextThickerGauge(wallMm)
    if (!next || next.wallMm >= mostWallMm) return null
    wallMm = next.wallMm
    const after = judgeSpec({ ...input, tube: { ...tube, wallMm } })
    if (after.word === 'no') continue
    return {
      change: 'wall',
      text: `a wall of ${said.mm(wallMm)} (${next.gauge} gauge) instead of ${said.mm(tube.wallMm)}`,
      valueMm: wallMm,
      stepFraction: wallMm / tube.wallMm - 1,
      word: after.word,
    }
  }
  return null
}
