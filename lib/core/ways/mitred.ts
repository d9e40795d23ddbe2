import type { SpecBend, SpecTube } from '@/lib/core/spec/contract'

export interface MitredPiece {
  /** Along the centreline between the corners it joins. */
  readonly centreLengthMm: number
  /** From long point to long point: what is sawn from the bar. */
  readonly longLengthMm: number
}

export interface MitredBuild {
  readonly pieces: readonly MitredPiece[]
  /** Of each joint: the saw's angle off square, and how far the corner lies outside the drawn arc. */
  readonly joints: readonly { readonly sawAngleDeg: number; readonly cornerOffsetMm: number }[]
  readonly totalLongMm: number
}

const halfRad = (bend: SpecBend): number => (bend.angleDeg * Math.PI) / 360

/**
 * The straights that replace a bent part, one mitred corner a bend.
 *   tangent T = R tan(a/2);  centre length = T before + straight + T after;  saw angle a/2 off square;
 *   long length = centre length + (h/2) tan(a/2) at each mitre;  corner outside the arc R (1/cos(a/2) - 1)
 * Source: geometry of a circular curve (tangent and external distance, surveying texts). Exact. Valid: 0 < a < 180; the tube's height lies in each bend's plane.
 */
export function mitredBuild(
  tube: Pick<SpecTube, 'heightMm'>,
  bends: readonly SpecBend[],
  straightAfterMm: number,
): MitredBuild {
  const tangentsMm = bends.map((bend) => bend.centrelineRadiusMm * Math.tan(halfRad(bend)))
  const slantMm = bends.map((bend) => (tube.heightMm / 2) * Math.tan(halfRad(bend)))
  const straightsMm = [...bends.map(({ straightBeforeMm }) => straightBeforeMm), straightAfterMm]
  const pieces = straightsMm.map((straightMm, index): MitredPiece => {
    const centreLengthMm = straightMm + (tangentsMm[index - 1] ?? 0) + (tangentsMm[index] ?? 0)
    return {
      centreLengthMm,
      longLengthMm: centreLengthMm + (slantMm[index - 1] ?? 0) + (slantMm[index] ?? 0),
    }
  })
  return {
    pieces,
    joints: bends.map((bend) => ({
      sawAngleDeg: bend.angleDeg / 2,
      cornerOffsetMm: bend.centrelineRadiusMm * (1 / Math.cos(halfRad(bend)) - 1),
    })),
    totalLongMm: pieces.reduce((sum, { longLengthMm }) => sum + longLengthMm, 0),
  }
}
