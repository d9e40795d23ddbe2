import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { rootBetween } from '@/lib/core/mechanics/root'

/** Integrals over the moment from 0 up: of curvature, of the tube's moment, of the recovery at the press, and of curvature times moment. */
export type ArmSums = { curvature: number; tube: number; recovery: number; bow: number }

type Place = Readonly<{ curvature: number; moment: number; tube: number; recovery: number }>

/** A step of the table: curvature grows by this much a step once past yield. */
const stepGrowth = 0.09

/**
 * Running integrals over the arm's moment, from the support inward, kept for one tube with its filler and strap.
 * An arm's moment rises straight along it, so that integrals along the arm are these over the moment at its end.
 *   integral of f dM over one step by Simpson's rule, f and M parabolas of the step's own parameter
 * Worked out as far as asked; steps grow with the curvature, so that they lie close where the section yields.
 */
export class ArmTable {
  private readonly bent: BentTube
  private readonly knee: number
  private readonly ends: Place[]
  private readonly sums: ArmSums[]

  constructor(bent: BentTube) {
    this.bent = bent
    this.knee = bent.material.yieldMPa / (bent.material.elasticModulusMPa * bent.tube.heightMm)
    this.ends = [{ curvature: 0, moment: 0, tube: 0, recovery: 0 }]
    this.sums = [{ curvature: 0, tube: 0, recovery: 0, bow: 0 }]
  }

  /** Moment of tube, filler and strap together at a curvature, y_n = 0 and T = 0 in all three. */
  private place(curvature: number): Place {
    const tube = this.bent.tubeMomentNmm(curvature)
    const filler = this.bent.fillerMomentNmm(curvature)
    return {
      curvature,
      moment: tube + filler + this.bent.strapMomentNmm(curvature, 0),
      tube,
      recovery: this.bent.pressRecovery(tube, filler),
    }
  }

  private curvatureAt(step: number): number {
    return this.knee * Math.expm1(step * stepGrowth)
  }

  private extendTo(momentNmm: number): void {
    for (let turn = 0; turn < 2000; turn++) {
      const last = this.ends.at(-1) as Place
      if (last.moment >= momentNmm) return
      const step = this.ends.length
      const middle = this.place(this.curvatureAt(step - 0.5))
      const end = this.place(this.curvatureAt(step))
      this.sums.push(added(this.sums.at(-1) as ArmSums, last, middle, end))
      this.ends.push(end)
    }
    throw new RangeError(`no curvature gives an arm a moment of ${momentNmm} N·mm`)
  }

  /** The integrals up to the moment at the arm's end. */
  upTo(momentNmm: number): ArmSums {
    this.extendTo(momentNmm)
    let low = 0
    let high = this.ends.length - 1
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if ((this.ends[middle] as Place).moment < momentNmm) low = middle
      else high = middle
    }
    const from = this.ends[low] as Place
    const to = this.ends[high] as Place
    const curvature = rootBetween(
      (k) =>
        this.bent.tubeMomentNmm(k) +
        this.bent.fillerMomentNmm(k) +
        this.bent.strapMomentNmm(k, 0) -
        momentNmm,
      from.curvature,
      to.curvature,
      1e-11,
    )
    const end = this.place(curvature)
    return added(this.sums[low] as ArmSums, from, this.place((from.curvature + curvature) / 2), end)
  }
}

function added(sums: ArmSums, a: Place, b: Place, c: Place): ArmSums {
  const m0 = 4 * b.moment - 3 * a.moment - c.moment
  const m1 = 4 * (c.moment - a.moment)
  const m2 = a.moment - 4 * b.moment + 3 * c.moment
  const over = (fa: number, fb: number, fc: number) => (fa * m0 + fb * m1 + fc * m2) / 6
  return {
    curvature: sums.curvature + over(a.curvature, b.curvature, c.curvature),
    tube: sums.tube + over(a.tube, b.tube, c.tube),
    recovery: sums.recovery + over(a.recovery, b.recovery, c.recovery),
    bow: sums.bow + over(a.curvature * a.moment, b.curvature * b.moment, c.curvature * c.moment),
  }
}
