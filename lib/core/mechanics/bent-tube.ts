import { type BareTube, bareTube } from '@/lib/core/mechanics/bare-tube'
import { FillerMoment } from '@/lib/core/mechanics/filler-moment'
import type { StressCurve, TubeMaterial } from '@/lib/core/mechanics/material-curve'
import type { SectionProperties, Tube } from '@/lib/core/mechanics/section'
import { type Strap, strapMomentNmm } from '@/lib/core/mechanics/yielding-strip'

export type Support =
  | Readonly<{ kind: 'hollow' }>
  | Readonly<{ kind: 'sand'; modulusMPa: number }>
  | Readonly<{ kind: 'lowMelt'; modulusMPa: number; yieldMPa: number }>

/** A tube with what supports it, ready to be bent to any radius. Moments in N·mm, curvatures in 1/mm. */
export class BentTube {
  readonly tube: Tube
  readonly material: TubeMaterial
  readonly support: Support
  readonly strap: Strap | null
  readonly section: SectionProperties
  readonly curve: StressCurve
  /** Flexural stiffness E I, N·mm². */
  readonly stiffness: number
  readonly bare: BareTube
  private readonly filler: FillerMoment | null

  constructor(tube: Tube, material: TubeMaterial, support: Support, strap: Strap | null) {
    this.tube = tube
    this.material = material
    this.support = support
    this.strap = strap
    this.bare = bareTube(tube, material)
    this.section = this.bare.section
    this.curve = this.bare.curve
    this.stiffness = this.bare.stiffness
    this.filler = support.kind === 'lowMelt' ? new FillerMoment(tube, support) : null
  }

  /** The tube's own moment with the neutral axis at the centroid. */
  tubeMomentNmm(curvature: number): number {
    return this.bare.momentNmm(curvature)
  }

  /** Force and moment over the tube's section at radius R with the neutral axis at y_n. */
  tubeForces(radiusMm: number, neutralMm: number): { forceN: number; momentNmm: number } {
    return this.bare.forces(radiusMm, neutralMm)
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
