import type { Balance } from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { rootBetween } from '@/lib/core/mechanics/root'

/** What one free arm turns by, for one millimetre of free length; its bow for one square millimetre. */
export type ArmShape = Readonly<{
  loadedRadPerMm: number
  keptRadPerMm: number
  bowPerMm: number
}>

const stepCount = 400

/** Curvature at which tube, filler and strap together reach a moment, with y_n = 0 and T = 0. */
function curvatureAtMoment(bent: BentTube, momentNmm: number): number {
  const whole = (curvature: number) => armMomentNmm(bent, curvature) - momentNmm
  let high = momentNmm / bent.stiffness
  for (let turn = 0; turn < 200 && whole(high) < 0; turn++) high *= 1.5
  return rootBetween(whole, 0, high, 1e-12)
}

function armMomentNmm(bent: BentTube, curvature: number): number {
  return bent.tubeMomentNmm(curvature) + bent.fillerMomentNmm(curvature) + bent.strapMomentNmm(curvature, 0)
}

/** Curvatures from 0 to the largest, close together where the section yields. */
function curvatureSteps(bent: BentTube, most: number): Float64Array {
  const knee = bent.material.yieldMPa / (bent.material.elasticModulusMPa * bent.tube.heightMm)
  const step = Math.log1p(most / knee) / stepCount
  return Float64Array.from({ length: stepCount + 1 }, (_, index) =>
    index === stepCount ? most : knee * Math.expm1(index * step),
  )
}

/**
 * What the arm between the end of contact and the support turns by while loaded and after melt-out, and its bow.
 *   k(x) solves M_tube(k) + M_filler(k) + M_strap(k) = m x / s,  m = M_ext - T (h/2 + ts/2)
 *   loaded = integral of k dx,  kept = integral of (k - c M_tube(k) / (E I)) dx,  bow = integral of k x dx,  x = 0 at the support
 * The integrals run over k, of which x is a smooth function. Source: section 6 of the project's bend model. Mechanics.
 */
export function armShape(bent: BentTube, balance: Balance, springbackFactor: number): ArmShape {
  const { end, steps } = armSteps(bent, balance)
  let loaded = 0
  let tubeMoment = 0
  let bow = 0
  let before = { curvature: 0, place: 0, tube: 0 }
  for (const curvature of steps) {
    const now = {
      curvature,
      place: Math.min(armMomentNmm(bent, curvature) / end, 1),
      tube: bent.tubeMomentNmm(curvature),
    }
    const wide = now.place - before.place
    loaded += ((now.curvature + before.curvature) / 2) * wide
    tubeMoment += ((now.tube + before.tube) / 2) * wide
    bow +=
      ((now.curvature * (2 * now.place + before.place) + before.curvature * (now.place + 2 * before.place)) /
        6) *
      wide
    before = now
  }
  return {
    loadedRadPerMm: loaded,
    keptRadPerMm: loaded - (springbackFactor * tubeMoment) / bent.stiffness,
    bowPerMm: bow,
  }
}

/** What one arm turns by at the press after the ram backs off, for one millimetre: integral of (k - c x(k)) dx. */
export function armAtPressRadPerMm(bent: BentTube, balance: Balance, springbackFactor: number): number {
  const { end, steps } = armSteps(bent, balance)
  let sum = 0
  let before = { place: 0, left: 0 }
  for (const curvature of steps) {
    const filler = bent.fillerMomentNmm(curvature)
    const recovery = bent.pressRecovery(bent.tubeMomentNmm(curvature), filler)
    const now = {
      place: Math.min(armMomentNmm(bent, curvature) / end, 1),
      left: curvature - springbackFactor * recovery,
    }
    sum += ((now.left + before.left) / 2) * (now.place - before.place)
    before = now
  }
  return sum
}

function armSteps(bent: BentTube, balance: Balance): { end: number; steps: Float64Array } {
  const outward = bent.strap ? bent.tube.heightMm / 2 + bent.strap.thicknessMm / 2 : 0
  const end = balance.externalMomentNmm - balance.strapTensionN * outward
  return { end, steps: curvatureSteps(bent, curvatureAtMoment(bent, end)) }
}
