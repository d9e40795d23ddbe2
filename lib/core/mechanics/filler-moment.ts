import { rootBetween } from '@/lib/core/mechanics/root'
import { sectionProperties, type Tube } from '@/lib/core/mechanics/section'

/** The bore filled, as far as its bending goes. */
type Bore = Readonly<{
  widthMm: number
  halfMm: number
  radiusMm: number
  inertiaMm4: number
  plasticMm3: number
}>

function boreOf(tube: Tube): Bore {
  const outsideRadiusMm = tube.shape === 'round' ? tube.heightMm / 2 : tube.cornerRadiusMm
  const radiusMm = Math.max(outsideRadiusMm - tube.wallMm, 0)
  const widthMm = tube.widthMm - 2 * tube.wallMm
  const halfMm = tube.heightMm / 2 - tube.wallMm
  const straightMm = halfMm - radiusMm
  // First moment of both halves: the rectangle's less, at four corners, square less quarter round.
  const cornerMm3 = radiusMm ** 2 * (1 - Math.PI / 4) * straightMm + radiusMm ** 3 / 6
  const plasticMm3 = widthMm * halfMm ** 2 - 4 * cornerMm3
  return { widthMm, halfMm, radiusMm, inertiaMm4: sectionProperties(tube).boreInertiaMm4, plasticMm3 }
}

/** Second moment within +-c of the middle, and first moment of what lies beyond, both sides added. Closed integrals of the outline. */
function split(bore: Bore, coreMm: number): { inertiaMm4: number; beyondMm3: number } {
  const { widthMm: b, halfMm, radiusMm: r } = bore
  const straightMm = halfMm - r
  if (coreMm >= halfMm) return { inertiaMm4: bore.inertiaMm4, beyondMm3: 0 }
  if (coreMm <= straightMm)
    return { inertiaMm4: (2 / 3) * b * coreMm ** 3, beyondMm3: bore.plasticMm3 - b * coreMm ** 2 }
  // y = straight + r sin(a) from a to pi/2, width b - 2 r + 2 r cos(a).
  const a = Math.asin(Math.min((coreMm - straightMm) / r, 1))
  const cos2 = Math.PI / 4 - a / 2 - Math.sin(2 * a) / 4
  const sinCos2 = Math.cos(a) ** 3 / 3
  const sin2Cos2 = Math.PI / 16 - a / 8 + Math.sin(4 * a) / 32
  const flatMm = b - 2 * r
  const first = (flatMm * (halfMm ** 2 - coreMm ** 2)) / 2 + 2 * r ** 2 * (straightMm * cos2 + r * sinCos2)
  const second =
    (flatMm * (halfMm ** 3 - coreMm ** 3)) / 3 +
    2 * r ** 2 * (straightMm ** 2 * cos2 + 2 * straightMm * r * sinCos2 + r ** 2 * sin2Cos2)
  return { inertiaMm4: bore.inertiaMm4 - 2 * second, beyondMm3: 2 * first }
}

/**
 * A low-melt filler in the bore, elastic-perfectly-plastic, bent about its own centroid and free to slide.
 *   core c = sf / (Ef k);  M_f = Ef k I_core + sf Q_beyond
 * Source: elementary plasticity, e.g. Beer & Johnston, Mechanics of Materials, ch. 4. Rectangle: My (1.5 - 0.5 (ky/k)^2).
 */
export class FillerMoment {
  private readonly bore: Bore
  private readonly modulusMPa: number
  private readonly yieldMPa: number

  constructor(tube: Tube, filler: { readonly modulusMPa: number; readonly yieldMPa: number }) {
    this.bore = boreOf(tube)
    this.modulusMPa = filler.modulusMPa
    this.yieldMPa = filler.yieldMPa
  }

  /** Ef If, N·mm². */
  get stiffness(): number {
    return this.modulusMPa * this.bore.inertiaMm4
  }

  /** Virgin moment at a curvature, N·mm. */
  at(curvature: number): number {
    const core = split(this.bore, this.yieldMPa / (this.modulusMPa * curvature))
    return curvature <= 0 ? 0 : this.modulusMPa * curvature * core.inertiaMm4 + this.yieldMPa * core.beyondMm3
  }

  /**
   * Curvature given back at the press, filler still in: the root x of  M_tube + M_filler - E I x - 2 M_f(x / 2) = 0.
   * Source: Masing's rule, unloading runs along the virgin curve drawn to twice the scale (G. Masing 1926).
   */
  recovery(tubeMomentNmm: number, fillerMomentNmm: number, tubeStiffness: number): number {
    const whole = tubeMomentNmm + fillerMomentNmm
    const elastic = whole / (tubeStiffness + this.stiffness)
    if ((this.modulusMPa * elastic * this.bore.halfMm) / 2 <= this.yieldMPa) return elastic
    return rootBetween(
      (x) => whole - tubeStiffness * x - 2 * this.at(x / 2),
      elastic * (1 - 1e-12),
      (whole / tubeStiffness) * (1 + 1e-12),
      1e-12,
    )
  }
}
