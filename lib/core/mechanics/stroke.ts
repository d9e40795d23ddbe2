import { type Balance, balanceAt, usableLever } from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { type Lever, leverAt, type Press, ramForceN } from '@/lib/core/mechanics/press'
import { strapCapacityN } from '@/lib/core/mechanics/yielding-strip'

/** Neutral axis and outside moment of one radius over the strap's tension, joined by cubics through a few exact points. */
function momentByTension(
  bent: BentTube,
  radiusMm: number,
  mostTensionN: number,
): (tensionN: number) => number {
  const count = 7
  const nodes = Array.from({ length: count }, (_, index) => {
    const tensionN = (mostTensionN * (1 - Math.cos((Math.PI * index) / (count - 1)))) / 2
    return { tensionN, momentNmm: balanceAt(bent, radiusMm, tensionN).externalMomentNmm }
  })
  const weights = nodes.map(
    (_, index) => (index % 2 === 0 ? 1 : -1) * (index === 0 || index === count - 1 ? 0.5 : 1),
  )
  return (tensionN) => {
    let top = 0
    let bottom = 0
    for (const [index, node] of nodes.entries()) {
      const gap = tensionN - node.tensionN
      if (gap === 0) return node.momentNmm
      const share = (weights[index] as number) / gap
      top += share * node.momentNmm
      bottom += share
    }
    return top / bottom
  }
}

/** Outside moment at an angle of the stroke, strap tension in balance. */
function momentAtLever(
  bent: BentTube,
  lever: Lever,
  byTension: ((tensionN: number) => number) | null,
  still: number,
): number {
  if (!bent.strap || !byTension) return still
  let moment = still
  for (let turn = 0; turn < 60; turn++) {
    const tensionN = Math.min((bent.strap.frictionCoeff * moment) / lever.leverMm, strapCapacityN(bent.strap))
    const next = byTension(tensionN)
    if (Math.abs(next - moment) <= 1e-9 * next) return next
    moment = next
  }
  return moment
}

export type StrokePoint = Readonly<{ phiRad: number; forceN: number }>

/**
 * Ram force along the whole stroke at the loaded radius, and its largest value, never less than what starts the tube yielding.
 *   F(phi), phi = 0..phi_L;  F >= 4 S Fty / L
 * Source: section 5 of the project's bend model; 4 S Fty / L is the three-point beam at first yield. Mechanics.
 */
export function stroke(
  bent: BentTube,
  press: Press,
  radiusMm: number,
  phiRad: number,
  full: Balance,
): { points: readonly StrokePoint[]; mostForceN: number; atPhiRad: number } {
  const still = balanceAt(bent, radiusMm, 0).externalMomentNmm
  const byTension = bent.strap
    ? momentByTension(bent, radiusMm, tensionLimitN(bent, press, radiusMm, phiRad, full))
    : null
  const forceAt = (phi: number) => {
    const lever = leverAt(bent, press, radiusMm, phi)
    return ramForceN(lever, press, phi, momentAtLever(bent, lever, byTension, still))
  }
  usableLever(bent, press, radiusMm, phiRad)
  const pointCount = 121
  const points = Array.from({ length: pointCount }, (_, index) => {
    const phi = (phiRad * index) / (pointCount - 1)
    return { phiRad: phi, forceN: forceAt(phi) }
  })
  const peak = points.reduce((best, point) => (point.forceN > best.forceN ? point : best))
  const firstYieldN = (4 * bent.section.elasticModulusMm3 * bent.material.yieldMPa) / press.supportSpanMm
  return firstYieldN > peak.forceN
    ? { points, mostForceN: firstYieldN, atPhiRad: 0 }
    : { points, mostForceN: peak.forceN, atPhiRad: peak.phiRad }
}

/** A tension no angle of the stroke passes, for the range of the interpolation. */
function tensionLimitN(
  bent: BentTube,
  press: Press,
  radiusMm: number,
  phiRad: number,
  full: Balance,
): number {
  if (!bent.strap) return 0
  let leastLeverMm = Number.POSITIVE_INFINITY
  for (let index = 0; index <= 40; index++) {
    const { leverMm } = leverAt(bent, press, radiusMm, (phiRad * index) / 40)
    if (leverMm > 0) leastLeverMm = Math.min(leastLeverMm, leverMm)
  }
  const grown = (1.1 * bent.strap.frictionCoeff * full.externalMomentNmm) / leastLeverMm
  return Math.max(Math.min(grown, strapCapacityN(bent.strap)), full.strapTensionN, 1)
}
