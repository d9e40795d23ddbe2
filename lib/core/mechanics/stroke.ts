import { armShape } from '@/lib/core/mechanics/arms'
import {
  type Balance,
  balanceAlone,
  balanceWithNeutral,
  tooMuchPull,
  usableLever,
} from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import {
  type Lever,
  leverAt,
  leverInto,
  leverRoom,
  type Press,
  ramForceN,
  ramTravelMm,
} from '@/lib/core/mechanics/press'
import type { Trace } from '@/lib/core/mechanics/trace'
import { type Strap, strapCapacityN } from '@/lib/core/mechanics/yielding-strip'

const nodeCount = 5
/** Angles at which the force is worked out first, no angle and the full one among them; then closer about the highest. */
const pointCount = 25

type MomentByTension = Readonly<{ at: (tensionN: number) => number; mostTensionN: number }>

/**
 * Outside moment of one radius over the strap's tension. The tube's part, smooth in the tension, is joined by one polynomial
 * through a few exact points; filler, strap and lever arm are put to it as they are.
 */
function momentByTension(
  bent: BentTube,
  strap: Strap,
  radiusMm: number,
  mostTensionN: number,
  full: Balance,
): MomentByTension {
  const last = balanceOfTension(bent, radiusMm, mostTensionN, full)
  const nodes = Array.from({ length: nodeCount }, (_, index) => {
    if (index === 0) return balanceAlone(bent, radiusMm)
    if (index === nodeCount - 1) return last
    const neutralMm = (last.neutralMm * (1 - Math.cos((Math.PI * index) / (nodeCount - 1)))) / 2
    return balanceWithNeutral(bent, radiusMm, neutralMm)
  })
  const tensions = nodes.map((node) => node.strapTensionN)
  const moments = nodes.map((node) => node.tubeMomentNmm)
  const weights = tensions.map((own, index) =>
    tensions.reduce(
      (product, other, place) => (place === index ? product : (product * mostTensionN) / (own - other)),
      1,
    ),
  )
  const tubeMomentNmm = (tensionN: number) => {
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
  const outwardMm = bent.tube.heightMm / 2 + strap.thicknessMm / 2
  const at = (tensionN: number) =>
    tubeMomentNmm(tensionN) +
    last.fillerMomentNmm +
    bent.strapMomentNmm(1 / radiusMm, tensionN) +
    tensionN * outwardMm
  return { at, mostTensionN }
}

/** The balance at the largest tension, near enough: where the tube can't carry that much, close to its edge. */
function balanceOfTension(bent: BentTube, radiusMm: number, tensionN: number, full: Balance): Balance {
  const edgeMm = (bent.tube.heightMm / 2) * (1 - 1e-6)
  let neutralMm = full.strapTensionN > 0 ? full.neutralMm : 0.01 * bent.tube.heightMm
  if (full.strapTensionN > 0 && full.strapTensionN < tensionN)
    neutralMm = Math.min((neutralMm * 1.02 * tensionN) / full.strapTensionN, edgeMm)
  for (let turn = 0; turn < 60; turn++) {
    const reached = balanceWithNeutral(bent, radiusMm, neutralMm)
    if (reached.strapTensionN >= tensionN * (1 - 1e-9) || neutralMm >= edgeMm) return reached
    neutralMm = Math.min(neutralMm * Math.max((1.02 * tensionN) / reached.strapTensionN, 1.02), edgeMm)
  }
  return balanceWithNeutral(bent, radiusMm, neutralMm)
}

type LoadRoom = { externalMomentNmm: number; strapTensionN: number }
type Load = Readonly<LoadRoom>

/**
 * Outside moment and strap tension at an angle of the stroke, in balance. The moment that a tension makes is put in again
 * until it stays, each time moved on by the slope of the last two. Source: Steffensen's and Aitken's idea.
 */
function loadAtLever(
  room: LoadRoom,
  bent: BentTube,
  lever: Lever,
  byTension: MomentByTension | null,
  startNmm: number,
): void {
  room.externalMomentNmm = startNmm
  room.strapTensionN = 0
  if (!bent.strap || !byTension) return
  const capacityN = strapCapacityN(bent.strap)
  let moment = startNmm
  let pullN = 0
  let lastMoment = 0
  let lastNext = 0
  for (let turn = 0; turn < 60; turn++) {
    pullN = Math.min((bent.strap.frictionCoeff * moment) / lever.leverMm, capacityN)
    const next = byTension.at(Math.min(pullN, byTension.mostTensionN))
    if (Math.abs(next - moment) <= 1e-9 * next) {
      if (pullN > byTension.mostTensionN * (1 + 1e-6)) throw tooMuchPull(pullN)
      moment = next
      break
    }
    const slope = turn > 0 ? (next - lastNext) / (moment - lastMoment) : 0
    lastMoment = moment
    lastNext = next
    moment = Math.abs(slope) < 0.5 ? moment + (next - moment) / (1 - slope) : next
  }
  room.externalMomentNmm = moment
  room.strapTensionN = Math.min(pullN, byTension.mostTensionN)
}

export type StrokePoint = Load & Readonly<{ phiRad: number; forceN: number }>

export type Stroke = Readonly<{
  mostForceN: number
  /** Half the wrapped angle at which the force is largest. */
  atPhiRad: number
  /** So many points evenly over the angle, no angle and the full one among them. Worked out when asked for: a range only wants the largest. */
  points: (count: number) => readonly StrokePoint[]
}>

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
): Stroke {
  const still = balanceAlone(bent, radiusMm).externalMomentNmm
  const { strap } = bent
  const byTension = strap
    ? momentByTension(bent, strap, radiusMm, tensionLimitN(bent, strap, press, radiusMm, phiRad, full), full)
    : null
  const room = leverRoom()
  const load = { externalMomentNmm: still, strapTensionN: 0 }
  const forceAt = (phi: number): number => {
    const lever = usableLever(bent, press, radiusMm, phi, room)
    // From the same start at each point, so that no point hangs on which was asked before.
    loadAtLever(load, bent, lever, byTension, byTension ? full.externalMomentNmm : still)
    return ramForceN(lever, press, phi, load.externalMomentNmm)
  }
  const pointAt = (phi: number): StrokePoint => {
    const forceN = forceAt(phi)
    const { externalMomentNmm, strapTensionN } = load
    return { externalMomentNmm, strapTensionN, phiRad: phi, forceN }
  }
  const { highestN: mostSeenN, atShare } = highest((share) => forceAt(phiRad * share))
  const firstYieldN = (4 * bent.section.elasticModulusMm3 * bent.material.yieldMPa) / press.supportSpanMm
  const mostForceN = Math.max(firstYieldN, mostSeenN)
  const atPhiRad = firstYieldN > mostSeenN ? 0 : phiRad * atShare
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
  const points = (count: number) =>
    Array.from({ length: count }, (_, index) => pointAt((phiRad * index) / (count - 1)))
  return { points, mostForceN, atPhiRad }
}

/**
 * The highest force and at what share of the angle: of evenly spread points, of points ever closer about the highest of them,
 * and of the top of the parabola through the last three.
 */
function highest(forceAt: (share: number) => number): { highestN: number; atShare: number } {
  let atShare = 0
  let highestN = Number.NEGATIVE_INFINITY
  const look = (share: number): number => {
    if (share < 0 || share > 1) return Number.NEGATIVE_INFINITY
    const forceN = forceAt(share)
    if (forceN > highestN) {
      highestN = forceN
      atShare = share
    }
    return forceN
  }
  for (let index = 0; index < pointCount; index++) look(index / (pointCount - 1))
  let step = 1 / (pointCount - 1)
  for (let turn = 0; turn < 3; turn++) {
    step /= 2
    const middle = atShare
    const middleN = highestN
    const before = look(middle - step)
    const after = look(middle + step)
    const bow = before - 2 * middleN + after
    if (turn === 2 && bow < 0 && Number.isFinite(bow)) look(middle + (step * (before - after)) / (2 * bow))
  }
  return { highestN, atShare }
}

/** A tension no angle of the stroke passes, for the range of the interpolation. */
function tensionLimitN(
  bent: BentTube,
  strap: Strap,
  press: Press,
  radiusMm: number,
  phiRad: number,
  full: Balance,
): number {
  let leastLeverMm = Number.POSITIVE_INFINITY
  const room = leverRoom()
  for (let index = 0; index <= 40; index++) {
    const { leverMm } = leverInto(room, bent, press, radiusMm, (phiRad * index) / 40)
    if (leverMm > 0) leastLeverMm = Math.min(leastLeverMm, leverMm)
  }
  const grown = (1.1 * strap.frictionCoeff * full.externalMomentNmm) / leastLeverMm
  return Math.max(Math.min(grown, strapCapacityN(strap)), full.strapTensionN, 1)
}
