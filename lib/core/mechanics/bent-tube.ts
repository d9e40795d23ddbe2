import { FillerMoment } from '@/lib/core/mechanics/filler-moment'
import { StressCurve, type StressIntegrals, type TubeMaterial } from '@/lib/core/mechanics/material-curve'
import { MomentTable } from '@/lib/core/mechanics/moment-table'
import { type SectionProperties, sectionProperties, type Tube } from '@/lib/core/mechanics/section'
import { type Outline, outlines, overHalf } from '@/lib/core/mechanics/section-panels'
import { type Strap, strapMomentNmm } from '@/lib/core/mechanics/yielding-strip'

export type Support =
  | Readonly<{ kind: 'hollow' }>
  | Readonly<{ kind: 'sand'; modulusMPa: number }>
  | Readonly<{ kind: 'lowMelt'; modulusMPa: number; yieldMPa: number }>

/** Where panels are cut about the neutral axis, in distances to where the tube yields. */
const kneeCut = 4

/**
 * A tube with what supports it, ready to be bent to any radius: everything that does not depend on the bend is worked out once.
 * Moments in N·mm, curvatures in 1/mm, y in mm from the centroid toward the outside of the bend.
 */
export class BentTube {
  readonly tube: Tube
  readonly material: TubeMaterial
  readonly support: Support
  readonly strap: Strap | null
  readonly section: SectionProperties
  readonly curve: StressCurve
  private readonly outlines: readonly Outline[]
  private readonly filler: FillerMoment | null
  private readonly tubeMoments: MomentTable
  private readonly room: StressIntegrals = { force: 0, moment: 0 }

  constructor(tube: Tube, material: TubeMaterial, support: Support, strap: Strap | null) {
    this.tube = tube
    this.material = material
    this.support = support
    this.strap = strap
    this.section = sectionProperties(tube)
    this.curve = new StressCurve(material)
    this.outlines = outlines(tube)
    this.filler = support.kind === 'lowMelt' ? new FillerMoment(tube, support) : null
    const knee = material.yieldMPa / (material.elasticModulusMPa * tube.heightMm)
    this.tubeMoments = new MomentTable(knee, 4 / tube.heightMm, (curvature) => this.momentAndSlope(curvature))
  }

  /** Flexural stiffness E I, N·mm². */
  get stiffness(): number {
    return this.material.elasticModulusMPa * this.section.inertiaMm4
  }

  /** Moment with the neutral axis at the centroid and its slope over curvature, by the stress's own integrals. */
  private momentAndSlope(curvature: number): { moment: number; slope: number } {
    if (curvature <= 0) return { moment: 0, slope: this.stiffness }
    let moment = 0
    let slope = 0
    const { curve, room } = this
    const add = (y: number, weight: number) => {
      const strain = curvature * y
      const own = curve.integrals(strain, room).moment / curvature ** 2
      moment += 2 * own * weight
      slope += (2 * (curve.stressMPa(strain) * y * y - 2 * own) * weight) / curvature
    }
    for (const outline of this.outlines) overHalf(outline, 1, 0, this.kneeMm(1 / curvature), add)
    return { moment, slope }
  }

  /** Height above the neutral axis at which panels of a round side are cut. */
  private kneeMm(radiusMm: number): number {
    return kneeCut * (this.material.yieldMPa / this.material.elasticModulusMPa + 0.002) * radiusMm
  }

  /** The tube's own moment with the neutral axis at the centroid. */
  tubeMomentNmm(curvature: number): number {
    return this.tubeMoments.at(curvature)
  }

  /**
   * Force and moment over the tube's section at radius R with the neutral axis at y_n.
   *   e(y) = (y - y_n) / (R + y_n);  force = integral of s dA,  moment = integral of s y dA
   */
  tubeForces(radiusMm: number, neutralMm: number): { forceN: number; momentNmm: number } {
    let force = 0
    let moment = 0
    const reachMm = radiusMm + neutralMm
    const kneeMm = this.kneeMm(reachMm)
    const { curve, room } = this
    for (const side of [1, -1] as const) {
      const add = (y: number, weight: number) => {
        curve.integrals((y - neutralMm) / reachMm, room)
        force += side * room.force * weight
        moment += side * room.moment * weight
      }
      for (const outline of this.outlines) overHalf(outline, side, neutralMm, kneeMm, add)
    }
    const forceN = force * reachMm
    return { forceN, momentNmm: moment * reachMm ** 2 + neutralMm * forceN }
  }

  /** The filler's virgin moment at a curvature; nothing for hollow and sand. */
  fillerMomentNmm(curvature: number): number {
    return this.filler ? this.filler.at(curvature) : 0
  }

  /** The strap's moment where the tube's centreline has the given curvature. */
  strapMomentNmm(curvature: number, tensionN: number): number {
    if (!this.strap || curvature <= 0) return 0
    const outwardMm = this.tube.heightMm / 2 + this.strap.thicknessMm / 2
    return strapMomentNmm(this.strap, curvature / (1 + curvature * outwardMm), tensionN)
  }

  /** Elastic recovery of curvature at the press, before the factor c, from tube and filler moments under load. */
  pressRecovery(tubeMomentNmm: number, fillerMomentNmm: number): number {
    if (!this.filler) return tubeMomentNmm / this.stiffness
    return this.filler.recovery(tubeMomentNmm, fillerMomentNmm, this.stiffness)
  }
}
