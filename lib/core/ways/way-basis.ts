import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { Support, WayKey } from '@/lib/core/cost/ways'
import { sawnLengthMm } from '@/lib/core/spec/lengths'
import { boughtMaterialId, costedPiece } from '@/lib/core/ways/costed-piece'
import type { WayWord } from '@/lib/core/ways/judge-spec'
import type { WaysQuestion } from '@/lib/core/ways/question'
import type { Need, WayAnswer } from '@/lib/core/ways/way-answer'

/** A die or strap that this way needs and the rack has not. */
export interface ToolToMake {
  readonly key: string
  readonly kind: 'die' | 'strap'
  readonly surfaceRadiusMm: number | null
  readonly strap: {
    readonly thicknessMm: number
    readonly widthMm: number
    readonly lengthMm: number
  } | null
}

/** Where the length sawn for one piece comes from. The kerf is the saw's and no part of the piece. */
export interface SawnLength {
  readonly developedMm: number
  readonly gripStartMm: number
  readonly gripEndMm: number
  readonly trimMm: number
  /** What slanted end cuts reach out past grip and trim. */
  readonly cutReachMm: number
  /** What one piece measures off the saw, the straights of a mitred one together. */
  readonly sawnMm: number
}

/** One way of making a part as the money side needs it: plain data, whole without the bend spec behind it. */
export interface WayBasis {
  readonly way: Exclude<WayKey, 'outside'>
  readonly name: string
  readonly word: WayWord
  readonly because: string
  readonly support: Support
  readonly strap: boolean
  readonly needs: readonly Need[]
  readonly warnings: readonly string[]
  /** One piece without holes, welded ends or penetrant; null where there is no bend spec to cost. */
  readonly part: CostedPart | null
  readonly length: SawnLength | null
  /** Lengths sawn from the bar for one piece. */
  readonly sawnPieces: readonly { readonly lengthMm: number; readonly pieceCount: number }[]
  readonly toolsToMake: readonly ToolToMake[]
  /** The material table's id of the tube to buy; absent: the part's own. */
  readonly materialId: string | null
  readonly filler: { readonly id: string; readonly massKg: number } | null
  /** The learned factor that the bend spec behind it springs back by; absent: the model's own. */
  readonly springbackFactor?: number
}

/**
 * What one way of making a part needs to be costed, from its answer.
 *   sawn length = cut length of the bend spec less the kerf counted in it; mitred: each straight from long point to long point
 * Valid: ways that bend or weld here; where the model gave no answer, nothing to cost.
 */
export function wayBasis(question: WaysQuestion, answer: WayAnswer): WayBasis {
  if (answer.way === 'outside') throw new RangeError('A bender outside is not costed by the shop’s hours.')
  const solved = answer.spec !== null || answer.mitred !== null
  const plain = {
    startCut: 'square',
    endCut: 'square',
    holeCount: 0,
    weldedEndCount: 0,
    dyePenetrant: false,
  } as const
  const filler = answer.spec?.answer.filler
  const springbackFactor = answer.spec?.input.springbackFactor
  return {
    way: answer.way,
    name: answer.name,
    word: answer.word,
    because: answer.because,
    support: answer.support,
    strap: answer.strap,
    needs: answer.needs,
    warnings: answer.warnings,
    part: solved ? costedPiece(question, answer, plain) : null,
    length: sawnLength(question, answer),
    sawnPieces: sawnPieces(question, answer),
    toolsToMake: toolsToMake(question, answer),
    materialId: boughtMaterialId(question, answer) ?? null,
    filler: filler && answer.support === 'lowMelt' ? { id: filler.id, massKg: filler.massKg } : null,
    ...(springbackFactor !== undefined && { springbackFactor }),
  }
}

function sawnLength(question: WaysQuestion, answer: WayAnswer): SawnLength | null {
  const trimMm = question.spec.trimMm ?? 0
  if (answer.spec) {
    const { developedLengthMm, gripStartMm, gripEndMm, cutLengthMm, cutReachMm = 0 } = answer.spec.answer
    return {
      developedMm: developedLengthMm,
      gripStartMm,
      gripEndMm,
      trimMm,
      cutReachMm,
      sawnMm: sawnLengthMm({ cutLengthMm }, question.spec.kerfMm ?? 0),
    }
  }
  if (!answer.mitred) return null
  const { totalLongMm } = answer.mitred
  return {
    developedMm: totalLongMm,
    gripStartMm: 0,
    gripEndMm: 0,
    trimMm: 0,
    cutReachMm: 0,
    sawnMm: totalLongMm,
  }
}

function sawnPieces(question: WaysQuestion, answer: WayAnswer): WayBasis['sawnPieces'] {
  if (answer.mitred) {
    const counts = new Map<number, number>()
    for (const { longLengthMm } of answer.mitred.pieces) {
      const lengthMm = Number(longLengthMm.toFixed(3))
      counts.set(lengthMm, (counts.get(lengthMm) ?? 0) + 1)
    }
    return [...counts].map(([lengthMm, pieceCount]) => ({ lengthMm, pieceCount }))
  }
  const length = sawnLength(question, answer)
  return length ? [{ lengthMm: Number(length.sawnMm.toFixed(3)), pieceCount: 1 }] : []
}

function toolsToMake(question: WaysQuestion, answer: WayAnswer): ToolToMake[] {
  if (!answer.spec) return []
  const { bends } = answer.spec.answer
  const radiiMm = [...new Set(bends.map(({ dieSurfaceRadiusMm }) => Number(dieSurfaceRadiusMm.toFixed(1))))]
  const dieNeeds = answer.needs.filter(({ what }) => what === 'die')
  const dies = radiiMm.flatMap((surfaceRadiusMm, index): ToolToMake[] =>
    dieNeeds[index]?.have === false
      ? [{ key: `die-${surfaceRadiusMm}`, kind: 'die', surfaceRadiusMm, strap: null }]
      : [],
  )
  const strap = answer.spec.input.method.strap
  const lacksStrap = answer.needs.some(({ what, have }) => what === 'strap' && !have)
  if (!strap || !lacksStrap) return dies
  const { thicknessMm, widthMm } = strap
  const lengthMm = strapBlankMm(question, answer)
  return [
    ...dies,
    { key: 'strap', kind: 'strap', surfaceRadiusMm: null, strap: { thicknessMm, widthMm, lengthMm } },
  ]
}

/**
 * How long a strap's blank is: round the longest bend's outside, and a span's half at each end to hook it on.
 *   (R + h/2) a + s
 * Source: geometry; the allowance of one span is common practice, no source. Valid: a part with a bend.
 */
export function strapBlankMm(question: WaysQuestion, answer: WayAnswer): number {
  const bends = answer.spec?.answer.bends ?? []
  const { heightMm } = question.spec.tube
  const arcsMm = bends.map(
    ({ finalRadiusMm, wrappedAngleDeg }) =>
      ((finalRadiusMm + heightMm / 2) * wrappedAngleDeg * Math.PI) / 180,
  )
  return Math.max(0, ...arcsMm) + question.spec.press.supportSpanMm
}
