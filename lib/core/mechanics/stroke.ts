import { type Balance, balanceAt, balanceWithNeutral, usableLever } from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { type Lever, leverAt, type Press, ramForceN } from '@/lib/core/mechanics/press'
import { strapCapacityN } from '@/lib/core/mechanics/yielding-strip'

const nodeCount = 8

/** Outside moment of one radius over the strap's tension, joined by one polynomial through a few exact points. */
function momentByTension(
  bent: BentTube,
  radiusMm: number,
  mostTensionN: number,
  full: Balance,
): (tensionN: number) => number {
  const most = neutralAt(bent, radiusMm, mostTensionN, full)
  const nodes = Array.from({ length: nodeCount }, (_, index) => {
    const neutralMm = (most * (1 - Math.cos((Math.PI * index) / (nodeCount - 1)))) / 2
    return index === 0 ? balanceAt(bent, radiusMm, 0) : balanceWithNeutral(bent, radiusMm, neutralMm)
  })
  const weights = nodes.map((node) =>
    nodes.reduce(
      (product, other) =>
        other === node ? product : (product * mostTensionN) / (node.strapTensionN - other.strapTensionN),
      1,
    ),
  )
  return (tensionN) => {
    let top = 0
    let bottom = 0
    for (let index = 0; index < nodeCount; index++) {
      const node = nodes[index] as Balance
      const gap = tensionN - node.strapTensionN
      if (gap === 0) return node.externalMomentNmm
      const share = (weights[index] as number) / gap
      top += share * node.externalMomentNmm
      bottom += share
    }
    return top / bottom
  }
}

/** The neutral axis of the largest tension, near enough: where the tube can't carry that much, close to its edge. */
function neutralAt(bent: BentTube, radiusMm: number, tensionN: number, full: Balance): number {
  const edgeMm = (bent.tube.heightMm / 2) * (1 - 1e-6)
  let neutralMm = full.strapTensionN > 0 ? full.neutralMm : 0.01 * bent.tube.heightMm
  for (let turn = 0; turn < 60; turn++) {
    const reached = -bent.tubeForces(radiusMm, neutralMm).forceN
    if (reached >= tensionN * (1 - 1e-9) || neutralMm >= edgeMm) return neutralMm
    neutralMm = Math.min(neutralMm * Math.max((1.02 * tensionN) / reached, 1.02), edgeMm)
  }
  return neutralMm
}

/** Outside moment at an angle of the stroke, strap tension in balance. */
function momentAtLever(
  bent: BentTube,
  lever: Lever,
  byTension: ((tensionN: number) => number) | null,
  start: number,
): number {
  if (!bent.strap || !byTension) return start
  let moment = start
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
    ? momentByTension(bent, radiusMm, tensionLimitN(bent, press, radiusMm, phiRad, full), full)
    : null
  let near = still
  const forceAt = (phi: number) => {
    const lever = leverAt(bent, press, radiusMm, phi)
    near = momentAtLever(bent, lever, byTension, near)
    return ramForceN(lever, press, phi, near)
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
