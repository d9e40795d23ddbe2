import type { DrawnTube } from './part'
import { sectionRing } from './tube-section'
import type { Point } from './vector'

/** What a bend does to the section; what is not known is drawn as before. */
export interface BentSection {
  widthOutsideMm?: number
  widthInsideMm?: number
  /** Sag at the middle of the outer and the inner face of a rectangular tube. */
  sagMm?: number
  /** Largest less smallest diameter of a round tube, in percent of its diameter. */
  ovalityPct?: number
  wallOutsideMm?: number
  wallInsideMm?: number
}

export interface SectionOutline {
  outer: readonly Point[]
  bore: readonly Point[] | null
}

const cornerSteps = 8

/** The section as [across, up] points in mm, the outside of the bend up. */
export function sectionOutline(tube: DrawnTube, after: BentSection = {}): SectionOutline {
  const ring = densified(sectionRing(tube, cornerSteps).points)
  const outer = ring.map((point) => bentPoint(tube, after, point))
  if (tube.wallMm === undefined) return { outer, bore: null }
  const bore = densified(sectionRing(tube, cornerSteps, tube.wallMm).points).map((point) =>
    bentPoint(tube, after, wallPoint(tube, tube.wallMm ?? 0, after, point)),
  )
  return { outer, bore }
}

/** Points every sixteenth of each long side, so that a face can sag. */
function densified(points: readonly Point[]): Point[] {
  const steps = 16
  return points.flatMap((point, index) => {
    const next = points[(index + 1) % points.length] ?? point
    return Array.from({ length: steps }, (_, step): Point => {
      const share = step / steps
      return [point[0] + (next[0] - point[0]) * share, point[1] + (next[1] - point[1]) * share]
    })
  })
}

/** Moves the bore's outer face by what the outside wall lost, its inner face by what the inside wall gained. */
function wallPoint(tube: DrawnTube, wallMm: number, after: BentSection, [up, side]: Point): Point {
  const reach = tube.heightMm / 2 - wallMm
  const share = (up / reach + 1) / 2
  const outward = (wallMm - (after.wallOutsideMm ?? wallMm)) * share
  const inward = (wallMm - (after.wallInsideMm ?? wallMm)) * (1 - share)
  return [up + outward - inward, side]
}

/** Taper from face to face, sag as a parabola over each face, a round tube's ovality as a pair of opposite changes. */
function bentPoint(tube: DrawnTube, after: BentSection, [up, side]: Point): Point {
  if (tube.shape === 'round') {
    const quarter = (after.ovalityPct ?? 0) / 400
    return [side * (1 + 2 * quarter), up * (1 - 2 * quarter)]
  }
  const share = up / tube.heightMm + 0.5
  const outside = (after.widthOutsideMm ?? tube.widthMm) / tube.widthMm
  const inside = (after.widthInsideMm ?? tube.widthMm) / tube.widthMm
  const widened = side * (inside + (outside - inside) * share)
  const middle = 1 - Math.min((2 * side) / tube.widthMm, 1) ** 2
  const nearFace = Math.max(0, Math.abs((2 * up) / tube.heightMm) - 0.6) / 0.4
  const sag = (after.sagMm ?? 0) * middle * nearFace
  return [widened, up - Math.sign(up) * sag]
}
