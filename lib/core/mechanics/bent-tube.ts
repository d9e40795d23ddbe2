import { StressCurve, type TubeMaterial } from '@/lib/core/mechanics/material-curve'
import { MomentTable } from '@/lib/core/mechanics/moment-table'
import {
  boreHalfFibres,
  type Fibres,
  type SectionProperties,
  sectionProperties,
  type Tube,
} from '@/lib/core/mechanics/section'
import { type Outline, outlines, overCap } from '@/lib/core/mechanics/section-panels'
import { type Strap, strapMomentNmm, yieldingMomentNmm } from '@/lib/core/mechanics/yielding-strip'

export type Support =
  | Readonly<{ kind: 'hollow' }>
  | Readonly<{ kind: 'sand'; modulusMPa: number }>
  | Readonly<{ kind: 'lowMelt'; modulusMPa: number; yieldMPa: number }>

/** Where panels are cut about the neutral axis, in distances to where the tube yields. */
const kneeCuts = [-24, -8, -3, -1.5, -0.9, -0.4, 0, 0.4, 0.9, 1.5, 3, 8, 24]

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
  private readonly boreHalf: Fibres
  private readonly tubeMoments: MomentTable

  constructor(tube: Tube, material: TubeMaterial, support: Support, strap: Strap | null) {
    this.tube = tube
    this.material = material
    this.support = support
    this.strap = strap
    this.section = sectionProperties(tube)
    this.curve = new StressCurve(material)
    this.outlines = outlines(tube)
    this.boreHalf = boreHalfFibres(tube)
    const knee = material.yieldMPa / (material.elasticModulusMPa * tube.heightMm)
    this.tubeMoments = new MomentTable(knee, 4 / tube.heightMm, (curvature) => this.momentAndSlope(curvature))
  }

  /** Flexural stiffness E I, N·mm². */
  get stiffness(): number {
    return this.material.elasticModulusMPa * this.section.inertiaMm4
  }

  /** Stiffness of the filler's bore section Ef If; nothing for hollow and sand. */
  get fillerStiffness(): number {
    return this.support.kind === 'lowMelt' ? this.support.modulusMPa * this.section.boreInertiaMm4 : 0
  }

  /** Moment with the neutral axis at the centroid and its slope over curvature: straight sides in closed form, caps in panels. */
  private momentAndSlope(curvature: number): { moment: number; slope: number } {
    if (curvature <= 0) return { moment: 0, slope: this.stiffness }
    const cuts = this.cutsAt(0, 1 / curvature)
    let moment = 0
    let slope = 0
    for (const outline of this.outlines) {
      if (outline.webMm > 0) {
        const strain = curvature * outline.webMm
        const side =
          (2 * outline.sign * outline.widthMm * this.curve.integrals(strain).moment) / curvature ** 2
        moment += side
        slope +=
          (2 * outline.sign * outline.widthMm * this.curve.stressMPa(strain) * outline.webMm ** 2 -
            2 * side) /
          curvature
      }
      overCap(outline, 1, cuts, (y, area) => {
        const strain = curvature * y
        const stress = this.curve.stressMPa(strain)
        moment += 2 * stress * y * area
        slope += 2 * this.curve.tangentOfStress(stress) * y * y * area
      })
    }
    return { moment, slope }
  }

  /** Heights about the neutral axis at which the stress turns sharply. */
  private cutsAt(neutralMm: number, radiusMm: number): number[] {
    const kneeMm = (this.material.yieldMPa / this.material.elasticModulusMPa + 0.002) * radiusMm
    return kneeCuts.map((cut) => neutralMm + cut * kneeMm)
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
    let forceN = 0
    let momentNmm = 0
    const reachMm = radiusMm + neutralMm
    const cuts = this.cutsAt(neutralMm, reachMm)
    for (const outline of this.outlines) {
      if (outline.webMm > 0) {
        const top = this.curve.integrals((outline.webMm - neutralMm) / reachMm)
        const bottom = this.curve.integrals((-outline.webMm - neutralMm) / reachMm)
        const pull = outline.sign * outline.widthMm * reachMm * (top.force - bottom.force)
        forceN += pull
        momentNmm +=
          outline.sign * outline.widthMm * reachMm ** 2 * (top.moment - bottom.moment) + neutralMm * pull
      }
      for (const side of [1, -1] as const) {
        overCap(outline, side, cuts, (y, area) => {
          const force = this.curve.stressMPa((y - neutralMm) / reachMm) * area
          forceN += force
          momentNmm += force * y
        })
      }
    }
    return { forceN, momentNmm }
  }

  /** The filler's virgin moment at a curvature; nothing for hollow and sand. */
  fillerMomentNmm(curvature: number): number {
    return this.support.kind === 'lowMelt' ? yieldingMomentNmm(this.boreHalf, this.support, curvature) : 0
  }

  /** The strap's moment where the tube's centreline has the given curvature. */
  strapMomentNmm(curvature: number, tensionN: number): number {
    if (!this.strap || curvature <= 0) return 0
    const outwardMm = this.tube.heightMm / 2 + this.strap.thicknessMm / 2
    return strapMomentNmm(this.strap, curvature / (1 + curvature * outwardMm), tensionN)
  }

  /** Elastic recovery of curvature at the press, before the factor c, from tube and filler moments under load. */
  pressRecovery(tubeMomentNmm: number, fillerMomentNmm: number): number {
    if (this.support.kind !== 'lowMelt') return tubeMomentNmm / this.stiffness
    const elastic = (tubeMomentNmm + fillerMomentNmm) / (this.stiffness + this.fillerStiffness)
    const yieldCurvature =
      (2 * this.support.yieldMPa) / (this.support.modulusMPa * (this.tube.heightMm - 2 * this.tube.wallMm))
    if (elastic / 2 <= yieldCurvature) return elastic
    let low = elastic
    let high = (tubeMomentNmm + fillerMomentNmm) / this.stiffness
    for (let turn = 0; turn < 60 && high - low > 1e-13 * high; turn++) {
      const x = (low + high) / 2
      const left = tubeMomentNmm - this.stiffness * x + fillerMomentNmm - 2 * this.fillerMomentNmm(x / 2)
      if (left > 0) low = x
      else high = x
    }
    return (low + high) / 2
  }
}
