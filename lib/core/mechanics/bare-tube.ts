import { StressCurve, type StressIntegrals, type TubeMaterial } from '@/lib/core/mechanics/material-curve'
import { MomentTable } from '@/lib/core/mechanics/moment-table'
import { type SectionProperties, sectionProperties, type Tube } from '@/lib/core/mechanics/section'
import { Heights, halfHeights, type Outline, outlines } from '@/lib/core/mechanics/section-panels'

/** Where panels are cut about the neutral axis, in distances to where the tube yields. */
const kneeCut = 4

/**
 * A tube alone, ready to be bent to any radius: what neither support nor strap nor bend changes is worked out once.
 * Moments in N·mm, curvatures in 1/mm, y in mm from the centroid toward the outside of the bend.
 */
export class BareTube {
  readonly tube: Tube
  readonly material: TubeMaterial
  readonly section: SectionProperties
  readonly curve: StressCurve
  /** Flexural stiffness E I, N·mm². */
  readonly stiffness: number
  private readonly outlines: readonly Outline[]
  private readonly moments: MomentTable
  private readonly heights = new Heights()
  private readonly room: StressIntegrals = { stressMPa: 0, force: 0, moment: 0 }

  constructor(tube: Tube, material: TubeMaterial) {
    this.tube = tube
    this.material = material
    this.section = sectionProperties(tube)
    this.curve = new StressCurve(material)
    this.stiffness = material.elasticModulusMPa * this.section.inertiaMm4
    this.outlines = outlines(tube)
    const knee = material.yieldMPa / (material.elasticModulusMPa * tube.heightMm)
    this.moments = new MomentTable(knee, 4 / tube.heightMm, (curvature) => this.momentAndSlope(curvature))
  }

  /** Moment with the neutral axis at the centroid and its slope over curvature, by the stress's own integrals. */
  private momentAndSlope(curvature: number): { moment: number; slope: number } {
    if (curvature <= 0) return { moment: 0, slope: this.stiffness }
    let moment = 0
    let slope = 0
    const { curve, room, heights } = this
    const kneeMm = this.kneeMm(1 / curvature)
    for (const outline of this.outlines) {
      const { count, yMm, weightMm } = halfHeights(heights, outline, 1, 0, kneeMm)
      for (let index = 0; index < count; index++) {
        const y = yMm[index] as number
        const weight = weightMm[index] as number
        const own = curve.integrals(curvature * y, room).moment / curvature ** 2
        moment += 2 * own * weight
        slope += (2 * (room.stressMPa * y * y - 2 * own) * weight) / curvature
      }
    }
    return { moment, slope }
  }

  /** Height above the neutral axis at which panels of a round side are cut. */
  private kneeMm(radiusMm: number): number {
    return kneeCut * (this.material.yieldMPa / this.material.elasticModulusMPa + 0.002) * radiusMm
  }

  /** The tube's own moment with the neutral axis at the centroid. */
  momentNmm(curvature: number): number {
    return this.moments.at(curvature)
  }

  /**
   * Force and moment over the tube's section at radius R with the neutral axis at y_n.
   *   e(y) = (y - y_n) / (R + y_n);  force = integral of s dA,  moment = integral of s y dA
   */
  forces(radiusMm: number, neutralMm: number): { forceN: number; momentNmm: number } {
    let force = 0
    let moment = 0
    const reachMm = radiusMm + neutralMm
    const kneeMm = this.kneeMm(reachMm)
    const { curve, room, heights } = this
    for (const outline of this.outlines) {
      for (let side = 1 as 1 | -1; ; side = -1) {
        const { count, yMm, weightMm } = halfHeights(heights, outline, side, neutralMm, kneeMm)
        for (let index = 0; index < count; index++) {
          curve.integrals(((yMm[index] as number) - neutralMm) / reachMm, room)
          const weight = side * (weightMm[index] as number)
          force += room.force * weight
          moment += room.moment * weight
        }
        if (side === -1) break
      }
    }
    const forceN = force * reachMm
    return { forceN, momentNmm: moment * reachMm ** 2 + neutralMm * forceN }
  }
}

const mostKept = 24
const kept = new Map<string, BareTube>()

/** The tube of these values, kept for the next ways and bends of it: all ways of one part, and an answer while typing, share it. */
export function bareTube(tube: Tube, material: TubeMaterial): BareTube {
  const key = JSON.stringify([tube, material])
  const known = kept.get(key)
  if (known) return known
  const made = new BareTube(tube, material)
  if (kept.size >= mostKept) kept.delete(kept.keys().next().value as string)
  kept.set(key, made)
  return made
}
