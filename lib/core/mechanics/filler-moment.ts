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

/** Stress resultant of a core that is elastic up to so far from the middle and yields beyond: sf (I_core / c + Q_beyond), over sf. Closed integrals of the outline. */
function momentOverYield(bore: Bore, coreMm: number): number {
  const { widthMm: b, halfMm, radiusMm: r } = bore
  const straightMm = halfMm - r
  if (coreMm >= halfMm) return bore.inertiaMm4 / coreMm
  if (coreMm <= straightMm) return bore.plasticMm3 - (b * coreMm * coreMm) / 3
  // y = straight + r sin(a) from a to pi/2, width b - 2 r + 2 r cos(a).
  const sine = Math.min((coreMm - straightMm) / r, 1)
  const cosine = Math.sqrt(1 - sine * sine)
  const left = Math.PI / 2 - Math.asin(sine)
  const double = sine * cosine
  const cos2 = (left - double) / 2
  const sinCos2 = (cosine * cosine * cosine) / 3
  // sin(4 a) = 4 sin(a) cos(a) (1 - 2 sin(a)^2)
  const sin2Cos2 = (left + double * (1 - 2 * sine * sine)) / 8
  const flatMm = b - 2 * r
  const first =
    (flatMm * (halfMm * halfMm - coreMm * coreMm)) / 2 + 2 * r * r * (straightMm * cos2 + r * sinCos2)
  const second =
    (flatMm * (halfMm * halfMm * halfMm - coreMm * coreMm * coreMm)) / 3 +
    2 * r * r * (straightMm * straightMm * cos2 + 2 * straightMm * r * sinCos2 + r * r * sin2Cos2)
  return (bore.inertiaMm4 - 2 * second) / coreMm + 2 * first
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
    if (curvature <= 0) return 0
    return this.yieldMPa * momentOverYield(this.bore, this.yieldMPa / (this.modulusMPa * curvature))
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
