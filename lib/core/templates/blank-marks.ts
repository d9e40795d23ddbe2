import { endOffsetMm } from '@/lib/core/drawing/end-cut'
import type { EndCut } from '@/lib/core/drawing/part'
import type { Point } from '@/lib/core/drawing/vector'
import type { ScribeMark } from './scribing-strip'

export interface BlankPart {
  readonly tube: {
    readonly shape: 'square' | 'rectangular' | 'round'
    readonly widthMm: number
    readonly heightMm: number
  }
  readonly bends: readonly {
    readonly straightBeforeMm: number
    readonly angleDeg: number
    readonly centrelineRadiusMm: number
    readonly neutralAxisShiftMm: number
    readonly wrappedAngleDeg: number
  }[]
  readonly straightAfterMm: number
  readonly startCut: EndCut
  readonly endCut: EndCut
  readonly gripStartMm: number
  readonly gripEndMm: number
  readonly trimMm: number
  /** As the bend spec gives it: finished length, grips, trim and kerf. */
  readonly cutLengthMm: number
}

export interface BlankMarks {
  readonly marks: readonly ScribeMark[]
  readonly blankLengthMm: number
  /** What the blank is longer than the bend spec's cut length, because a slanted cut reaches past the end of the centreline. */
  readonly extraForCutsMm: number
}

/** Steps round a section that are looked at for the point that stands out farthest. */
const STEPS = 72

/**
 * Where the marks lie on the straight blank, all from the datum end.
 *   start of the part = grip at the start + half the trim, or as far as a slanted cut reaches out, whichever is more
 *   a bend begins after the straight before it and is as long as its neutral fibre: R a + y_n * wrapped angle
 *   centre = middle of that length
 * Source: the neutral fibre keeps its length; end cuts as in the drawing, from the centreline's end. Exact.
 */
export function blankMarks(part: BlankPart): BlankMarks {
  const [startReachMm, endReachMm] = [part.startCut, part.endCut].map((cut) => reach(part.tube, cut)) as [
    Reach,
    Reach,
  ]
  const halfTrimMm = part.trimMm / 2
  const extraStartMm = Math.max(startReachMm.outMm - part.gripStartMm - halfTrimMm, 0)
  const extraEndMm = Math.max(endReachMm.outMm - part.gripEndMm - halfTrimMm, 0)
  const startMm = part.gripStartMm + halfTrimMm + extraStartMm
  let hereMm = startMm
  const bendMarks = part.bends.flatMap((bend, index): ScribeMark[] => {
    const lengthMm = bendLengthMm(bend)
    const fromMm = hereMm + bend.straightBeforeMm
    hereMm = fromMm + lengthMm
    const name = `bend ${index + 1}`
    return [
      { atMm: fromMm, kind: 'tangent', label: `${name} begins` },
      { atMm: fromMm + lengthMm / 2, kind: 'bendCentre', label: `${name} centre` },
      { atMm: hereMm, kind: 'tangent', label: `${name} ends` },
    ]
  })
  const endMm = hereMm + part.straightAfterMm
  const blankLengthMm = part.cutLengthMm + extraStartMm + extraEndMm
  return {
    marks: [
      { atMm: 0, kind: 'datum', label: 'datum end' },
      ...cutMarks(part.startCut, startMm, -1, startReachMm),
      ...bendMarks,
      ...cutMarks(part.endCut, endMm, 1, endReachMm),
    ],
    blankLengthMm,
    extraForCutsMm: extraStartMm + extraEndMm,
  }
}

/** How long the neutral fibre of one bend is. */
export function bendLengthMm(bend: BlankPart['bends'][number]): number {
  const rad = Math.PI / 180
  return bend.centrelineRadiusMm * bend.angleDeg * rad + bend.neutralAxisShiftMm * bend.wrappedAngleDeg * rad
}

function cutMarks(cut: EndCut, atMm: number, outward: 1 | -1, { outMm, inMm }: Reach): ScribeMark[] {
  const end = outward === -1 ? 'datum' : 'far'
  if (cut.kind === 'square') {
    return [{ atMm, kind: 'trim', label: `trim line, ${end} end` }]
  }
  const name = `${end} ${cut.kind}`
  return [
    { atMm: atMm + outward * outMm, kind: 'mitre', label: `${name}, long side` },
    { atMm, kind: 'mitre', label: `${name}, ${cut.kind === 'mitre' ? 'middle' : 'nearest side'}` },
    ...(inMm > 1e-6
      ? [{ atMm: atMm - outward * inMm, kind: 'mitre' as const, label: `${name}, short side` }]
      : []),
  ]
}

type Reach = { outMm: number; inMm: number }

/** How far a cut reaches past the end of the centreline, and how far it falls short of it. */
function reach(tube: BlankPart['tube'], cut: EndCut): Reach {
  const offsets = outline(tube).map((point) => endOffsetMm(cut, point))
  return { outMm: Math.max(0, ...offsets), inMm: Math.max(0, ...offsets.map((mm) => -mm)) }
}

/** The section's outline, its corners taken sharp. */
function outline({ shape, widthMm, heightMm }: BlankPart['tube']): Point[] {
  const [w, h] = [widthMm / 2, heightMm / 2]
  return Array.from({ length: STEPS }, (_, step): Point => {
    const turn = (2 * Math.PI * step) / STEPS
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
    if (shape === 'round') return [w * cos, w * sin]
    // Along each ray to the rectangle's edge; a step falls on each of a square's corners.
    const far = Math.min(
      Math.abs(cos) < 1e-9 ? Number.POSITIVE_INFINITY : h / Math.abs(cos),
      Math.abs(sin) < 1e-9 ? Number.POSITIVE_INFINITY : w / Math.abs(sin),
    )
    return [far * cos, far * sin]
  }).concat(
    shape === 'round'
      ? []
      : [
          [h, w],
          [h, -w],
          [-h, w],
          [-h, -w],
        ],
  )
}
