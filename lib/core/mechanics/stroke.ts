import { armShape } from '@/lib/core/mechanics/arms'
import {
  type Balance,
  balanceAlone,
  balanceWithNeutral,
  tooMuchPull,
  usableLever,
} from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { type Lever, leverAt, type Press, ramForceN, ramTravelMm } from '@/lib/core/mechanics/press'
import type { Trace } from '@/lib/core/mechanics/trace'
import { strapCapacityN } from '@/lib/core/mechanics/yielding-strip'

const nodeCount = 8
/** Angles at which the force is worked out, no angle and the full one among them. */
const pointCount = 61

type MomentByTension = Readonly<{ at: (tensionN: number) => number; mostTensionN: number }>

/** Outside moment of one radius over the strap's tension, joined by one polynomial through a few exact points. */
function momentByTension(
  bent: BentTube,
  radiusMm: number,
  mostTensionN: number,
  full: Balance,
): MomentByTension {
  const most = neutralAt(bent, radiusMm, mostTensionN, full)
  const nodes = Array.from({ length: nodeCount }, (_, index) => {
    const neutralMm = (most * (1 - Math.cos((Math.PI * index) / (nodeCount - 1)))) / 2
    return index === 0 ? balanceAlone(bent, radiusMm) : balanceWithNeutral(bent, radiusMm, neutralMm)
  })
  const tensions = nodes.map((node) => node.strapTensionN)
  const moments = nodes.map((node) => node.externalMomentNmm)
  const weights = tensions.map((own, index) =>
    tensions.reduce(
      (product, other, place) => (place === index ? product : (product * mostTensionN) / (own - other)),
      1,
    ),
  )
  const mostTension = tensions[nodeCount - 1] as number
  const at = (tensionN: number) => {
    let top = 0
    let bottom = 0
    for (let index = 0; index < nodeCount; index++) {
      const gap = tensionN - (tensions[index] as number)
      if (gap === 0) return moments[index] as number
      const share = (weights[index] as number) / gap
      top += share * (moments[index] as number)
      bottom += share
    }
    return top / bottom
  }
  return { at, mostTensionN: mostTension }
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

type Load = Pick<Balance, 'externalMomentNmm' | 'strapTensionN'>

/**
 * Outside moment and strap tension at an angle of the stroke, in balance. The moment that a tension makes is put in again
 * until it stays, each time moved on by the slope of the last two. Source: Steffensen's and Aitken's idea.
 */
function loadAtLever(
  bent: BentTube,
  lever: Lever,
  byTension: MomentByTension | null,
  startNmm: number,
): Load {
  if (!bent.strap || !byTension) return { externalMomentNmm: startNmm, strapTensionN: 0 }
  const capacityN = strapCapacityN(bent.strap)
  let moment = startNmm
  let pullN = 0
  let before = { moment: 0, next: 0 }
  for (let turn = 0; turn < 60; turn++) {
    pullN = Math.min((bent.strap.frictionCoeff * moment) / lever.leverMm, capacityN)
    const next = byTension.at(Math.min(pullN, byTension.mostTensionN))
    if (Math.abs(next - moment) <= 1e-9 * next) {
      if (pullN > byTension.mostTensionN * (1 + 1e-6)) throw tooMuchPull(pullN)
      moment = next
      break
    }
    const slope = turn > 0 ? (next - before.next) / (moment - before.moment) : 0
    before = { moment, next }
    moment = Math.abs(slope) < 0.5 ? moment + (next - moment) / (1 - slope) : next
  }
  return { externalMomentNmm: moment, strapTensionN: Math.min(pullN, byTension.mostTensionN) }
}

export type StrokePoint = Load & Readonly<{ phiRad: number; forceN: number }>

/**
 * How far the ram has come at each point of a stroke, the free arms' bow under that point's moment in it. The bow over s^2 hangs
 * on the strap's tension alone, and so nearly in a straight line that it is worked out at the least and the largest and joined.
 */
export function travelsMm(
  bent: BentTube,
  press: Press,
  radiusMm: number,
  points: readonly StrokePoint[],
): readonly number[] {
  const byTension = points.toSorted((a, b) => a.strapTensionN - b.strapTensionN)
  const [least, most] = [byTension[0], byTension.at(-1)]
  if (!least || !most) return []
  const bowPerMm = (point: StrokePoint) => armShape(bent, point, 1).bowPerMm
  const leastBow = bowPerMm(least)
  const widerN = most.strapTensionN - least.strapTensionN
  const growth = widerN > 0 ? (bowPerMm(most) - leastBow) / widerN : 0
  return points.map(({ phiRad, strapTensionN }) => {
    const lever = leverAt(bent, press, radiusMm, phiRad)
    const bow = leastBow + growth * (strapTensionN - least.strapTensionN)
    return ramTravelMm(lever, radiusMm, phiRad, bow * lever.freeMm ** 2)
  })
}

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
  trace?: Trace,
): { points: readonly StrokePoint[]; mostForceN: number; atPhiRad: number } {
  const still = balanceAlone(bent, radiusMm).externalMomentNmm
  const byTension = bent.strap
    ? momentByTension(bent, radiusMm, tensionLimitN(bent, press, radiusMm, phiRad, full), full)
    : null
  let near = still
  const pointAt = (phi: number): StrokePoint => {
    const lever = usableLever(bent, press, radiusMm, phi)
    const { externalMomentNmm, strapTensionN } = loadAtLever(bent, lever, byTension, near)
    near = externalMomentNmm
    const forceN = ramForceN(lever, press, phi, externalMomentNmm)
    // Named one by one: sixty points a bend, and spreading an object into another takes as long as the rest together.
    return { externalMomentNmm, strapTensionN, phiRad: phi, forceN }
  }
  const points = Array.from({ length: pointCount }, (_, index) =>
    pointAt((phiRad * index) / (pointCount - 1)),
  )
  const highest = points.reduce(
    (best, point, index) => (point.forceN > (points[best]?.forceN ?? 0) ? index : best),
    0,
  )
  const peak = peakNear(points, highest, pointAt)
  const firstYieldN = (4 * bent.section.elasticModulusMm3 * bent.material.yieldMPa) / press.supportSpanMm
  const mostForceN = Math.max(firstYieldN, peak.forceN)
  const atPhiRad = firstYieldN > peak.forceN ? 0 : peak.phiRad
  if (trace) {
    const lever = leverAt(bent, press, radiusMm, atPhiRad)
    trace.step('pressForceKn', {
      formula:
        'F = 2 N (cos phi + g mu sin phi),  N = M_ext / (s + g mu a), the largest over phi = 0..full;  at least 4 S Fty / L',
      inputs: [
        ['phi at the largest', (atPhiRad * 180) / Math.PI, '°'],
        ['s + g mu a there', lever.leverMm, 'mm'],
        ['g', lever.sense],
        ['mu', press.supportFrictionCoeff],
        ['M_ext at full angle', full.externalMomentNmm, 'N·mm', 'externalMomentNmm'],
        ['4 S Fty / L', firstYieldN, 'N', '/section.elasticModulusMm3'],
      ],
      value: mostForceN / 1000,
      unit: 'kN',
      source: 'statics of a bar on two round supports with friction',
      trust: 'mechanics',
    })
  }
  return { points, mostForceN, atPhiRad }
}

/** The top of the parabola through the highest point and its neighbours, if that is higher still. */
function peakNear(
  points: readonly StrokePoint[],
  highest: number,
  pointAt: (phiRad: number) => StrokePoint,
): StrokePoint {
  const [before, top, after] = [points[highest - 1], points[highest], points[highest + 1]]
  if (!top) throw new RangeError('a stroke without points has no highest one')
  if (!before || !after) return top
  const bow = before.forceN - 2 * top.forceN + after.forceN
  if (bow >= 0) return top
  const phiRad = top.phiRad + ((after.phiRad - top.phiRad) * (before.forceN - after.forceN)) / (2 * bow)
  const found = pointAt(phiRad)
  return found.forceN > top.forceN ? found : top
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
