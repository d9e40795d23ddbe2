import { StressCurve, type TubeMaterial } from '@/lib/core/mechanics/material-curve'
import { MomentTable } from '@/lib/core/mechanics/moment-table'
import {
  boreHalfFibres,
  type Fibres,
  type SectionProperties,
  sectionProperties,
  type Tube,
  tubeHalfFibres,
} from '@/lib/core/mechanics/section'
import { type Strap, strapMomentNmm, yieldingMomentNmm } from '@/lib/core/mechanics/yielding-strip'

export type Support =
  | Readonly<{ kind: 'hollow' }>
  | Readonly<{ kind: 'sand'; modulusMPa: number }>
  | Readonly<{ kind: 'lowMelt'; modulusMPa: number; yieldMPa: number }>

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
  private readonly half: Fibres
  private readonly boreHalf: Fibres
  private readonly tubeMoments: MomentTable

  constructor(tube: Tube, material: TubeMaterial, support: Support, strap: Strap | null) {
    this.tube = tube
    this.material = material
    this.support = support
    this.strap = strap
    this.section = sectionProperties(tube)
    this.curve = new StressCurve(material)
    this.half = tubeHalfFibres(tube)
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

  private momentAndSlope(curvature: number): { moment: number; slope: number } {
    let moment = 0
    let slope = 0
    const { yMm, areaMm2 } = this.half
    for (let i = 0; i < yMm.length; i++) {
      const y = yMm[i] as number
      const strain = curvature * y
      const pull = y * (areaMm2[i] as number)
      const stress = this.curve.stressMPa(strain)
      moment += stress * pull
      slope += this.curve.tangentMPa(strain) * y * pull
    }
    return { moment: 2 * moment, slope: 2 * slope }
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
    const over = 1 / (radiusMm + neutralMm)
    const { yMm, areaMm2 } = this.half
    for (let i = 0; i < yMm.length; i++) {
      const y = yMm[i] as number
      const outer = this.curve.stressMPa((y - neutralMm) * over)
      const inner = this.curve.stressMPa((-y - neutralMm) * over)
      const area = areaMm2[i] as number
      forceN += (outer + inner) * area
      momentNmm += (outer - inner) * y * area
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
