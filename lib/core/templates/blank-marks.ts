import { type CutReach, cutReach } from '@/lib/core/drawing/end-cut'
import type { EndCut } from '@/lib/core/drawing/part'
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
  /** As the bend spec gives it: finished length, grips, trim and kerf, and what it counted for slanted cuts. */
  readonly cutLengthMm: number
  readonly kerfMm: number
  /** What the bend spec counted for slanted cuts. */
  readonly countedForCutsMm: number
}

export interface BlankMarks {
  readonly marks: readonly ScribeMark[]
  /** What the blank measures off the saw: the kerf is the saw's. */
  readonly blankLengthMm: number
  /** How much of it is there because a slanted cut reaches past the end of the centreline. */
  readonly extraForCutsMm: number
}

/**
 * Where the marks lie on the straight blank, all from the datum end.
 *   start of the part = grip at the start + half the trim, or as far as a slanted cut reaches out, whichever is more
 *   a bend begins after the straight before it and is as long as its neutral fibre: R a + y_n * wrapped angle
 *   centre = middle of that length
 * Source: the neutral fibre keeps its length; end cuts as in the drawing, from the centreline's end. Exact.
 */
export function blankMarks(part: BlankPart): BlankMarks {
  const startReachMm = cutReach(part.tube, part.startCut)
  const endReachMm = cutReach(part.tube, part.endCut)
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
  const blankLengthMm = part.cutLengthMm - part.kerfMm - part.countedForCutsMm + extraStartMm + extraEndMm
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

function cutMarks(cut: EndCut, atMm: number, outward: 1 | -1, { outMm, inMm }: CutReach): ScribeMark[] {
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
