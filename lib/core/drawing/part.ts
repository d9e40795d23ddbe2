export interface DrawnTube {
  shape: 'square' | 'rectangular' | 'round'
  /** Across the bend plane. */
  widthMm: number
  /** In the plane of the first bend. */
  heightMm: number
  wallMm?: number
  cornerRadiusMm?: number
}

export interface DrawnBend {
  straightBeforeMm: number
  angleDeg: number
  centrelineRadiusMm: number
  rotationDeg: number
}

/** `rotationDeg` is about the tube's axis, from the tube's height toward its side. Mitre 0 is a square cut. */
export type EndCut =
  | { kind: 'square' }
  | { kind: 'mitre'; angleDeg: number; rotationDeg?: number }
  | { kind: 'saddle'; onDiameterMm: number; angleDeg?: number; rotationDeg?: number }

export interface DrawnPart {
  tube: DrawnTube
  bends: readonly DrawnBend[]
  straightAfterMm: number
  startCut?: EndCut
  endCut?: EndCut
}

/** A part while it is typed: any number may still be missing or wrong. */
export interface TypedPart {
  tube: { shape: DrawnTube['shape'] } & { [Key in Exclude<keyof DrawnTube, 'shape'>]?: number | null }
  bends: readonly { [Key in keyof DrawnBend]?: number | null }[]
  straightAfterMm?: number | null
  startCut?: EndCut
  endCut?: EndCut
}

export interface Drawable {
  /** Nothing to draw yet: null. */
  part: DrawnPart | null
  /** What is left out, in words. */
  missing: readonly string[]
}

const mostMm = 1e7

function isLength(value: number | null | undefined): value is number {
  return typeof value === 'number' && value >= 0 && value <= mostMm
}

function isSize(value: number | null | undefined): value is number {
  return isLength(value) && value > 0
}

/** What of a half-typed part can be drawn: the tube up to the first number that is missing or impossible. */
export function drawablePart(typed: TypedPart): Drawable {
  const tube = drawableTube(typed.tube)
  if (!tube) return { part: null, missing: ['the tube has no size yet'] }
  const bends: DrawnBend[] = []
  for (const [index, bend] of typed.bends.entries()) {
    const name = `bend ${index + 1}`
    if (!isLength(bend.straightBeforeMm)) {
      return cut(tube, bends, 0, typed, `${name} on: its straight is missing`)
    }
    const { angleDeg, centrelineRadiusMm, straightBeforeMm } = bend
    const rotationDeg = bend.rotationDeg ?? 0
    const angleGood = typeof angleDeg === 'number' && angleDeg > 0 && angleDeg < 180
    const radiusGood = isSize(centrelineRadiusMm) && centrelineRadiusMm > tube.heightMm / 2
    if (!angleGood || !radiusGood || !Number.isFinite(rotationDeg)) {
      const fault = angleGood ? (radiusGood ? 'rotation' : 'radius') : 'angle'
      return cut(tube, bends, straightBeforeMm, typed, `${name} on: its ${fault} cannot be drawn`)
    }
    bends.push({ straightBeforeMm, angleDeg, centrelineRadiusMm, rotationDeg })
  }
  if (!isLength(typed.straightAfterMm)) return cut(tube, bends, 0, typed, 'the last straight')
  return {
    part: {
      tube,
      bends,
      straightAfterMm: typed.straightAfterMm,
      startCut: drawableCut(typed.startCut),
      endCut: drawableCut(typed.endCut),
    },
    missing: [],
  }
}

function cut(
  tube: DrawnTube,
  bends: readonly DrawnBend[],
  straightAfterMm: number,
  typed: TypedPart,
  what: string,
): Drawable {
  const nothing = bends.length === 0 && straightAfterMm === 0
  return {
    part: nothing ? null : { tube, bends, straightAfterMm, startCut: drawableCut(typed.startCut) },
    missing: [what],
  }
}

function drawableTube(tube: TypedPart['tube']): DrawnTube | null {
  const widthMm = isSize(tube.widthMm) ? tube.widthMm : tube.heightMm
  const heightMm = isSize(tube.heightMm) ? tube.heightMm : tube.widthMm
  if (!isSize(widthMm) || !isSize(heightMm)) return null
  const half = Math.min(widthMm, heightMm) / 2
  const wallMm = isSize(tube.wallMm) && tube.wallMm < half ? tube.wallMm : undefined
  const round = isLength(tube.cornerRadiusMm) ? Math.min(tube.cornerRadiusMm, half) : 0
  return { shape: tube.shape, widthMm, heightMm, wallMm, cornerRadiusMm: round }
}

function drawableCut(end: EndCut | undefined): EndCut | undefined {
  if (end?.kind === 'mitre' && !(Math.abs(end.angleDeg) < 80)) return undefined
  if (end?.kind === 'saddle' && !isSize(end.onDiameterMm)) return undefined
  return end
}
