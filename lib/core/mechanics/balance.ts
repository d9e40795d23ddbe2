import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { type Lever, type LeverRoom, leverInto, leverRoom, type Press } from '@/lib/core/mechanics/press'
import { Impossible } from '@/lib/core/mechanics/refusal'
import { rootBetween } from '@/lib/core/mechanics/root'
import { strapCapacityN } from '@/lib/core/mechanics/yielding-strip'
import { said } from '@/lib/core/sentence'

/** Moments over the bent section under load, and where the neutral axis stands. */
export type Balance = Readonly<{
  neutralMm: number
  strapTensionN: number
  tubeMomentNmm: number
  fillerMomentNmm: number
  strapMomentNmm: number
  externalMomentNmm: number
}>

/** Friction at the strap's face: the tension may be this much of a tube held at one radius. */
function outwardMm(bent: BentTube): number {
  return bent.strap ? bent.tube.heightMm / 2 + bent.strap.thicknessMm / 2 : 0
}

/** The section at radius R with no strap, or a strap that pulls nothing: the neutral axis at the centroid. */
export function balanceAlone(bent: BentTube, radiusMm: number): Balance {
  return balanceOf(bent, radiusMm, 0, 0, bent.tubeMomentNmm(1 / radiusMm))
}

/**
 * The section at radius R with its neutral axis at y_n, and the strap tension T that holds it there.
 *   T = -integral of s(e) dA;  M_ext = M_tube + M_filler + M_strap + T (h/2 + ts/2)
 * Source: the strap as a separate strip with friction, sections 3 and 4 of the project's bend model. Mechanics.
 */
export function balanceWithNeutral(bent: BentTube, radiusMm: number, neutralMm: number): Balance {
  const { forceN, momentNmm } = bent.tubeForces(radiusMm, neutralMm)
  return balanceOf(bent, radiusMm, neutralMm, 0 - forceN, momentNmm)
}

function balanceOf(
  bent: BentTube,
  radiusMm: number,
  neutralMm: number,
  strapTensionN: number,
  tubeMomentNmm: number,
): Balance {
  const fillerMomentNmm = bent.fillerMomentNmm(1 / radiusMm)
  const strapMomentNmm = bent.strapMomentNmm(1 / radiusMm, strapTensionN)
  return {
    neutralMm,
    strapTensionN,
    tubeMomentNmm,
    fillerMomentNmm,
    strapMomentNmm,
    externalMomentNmm: tubeMomentNmm + fillerMomentNmm + strapMomentNmm + strapTensionN * outwardMm(bent),
  }
}

/** The neutral axis would lie outside the tube. */
export function tooMuchPull(tensionN: number): Impossible {
  return new Impossible(
    'strap',
    `the strap pulls ${said.kN(tensionN / 1000)}, more than the tube can carry in compression`,
    'a thinner, narrower or softer strap, or less friction',
  )
}

/**
 * Balance of section and supports at half the wrapped angle: y_n, N and T solved together.
 *   T(y_n) = min(mu_s N, As Fys),  N = M_ext / lever
 * Throws Impossible at 'span' where the supports are too close, at 'strap' where y_n would reach the tube's edge.
 */
export function balanceInPress(
  bent: BentTube,
  press: Press,
  radiusMm: number,
  phiRad: number,
): { balance: Balance; lever: Lever } {
  const lever = usableLever(bent, press, radiusMm, phiRad)
  const { strap } = bent
  if (!strap || strap.frictionCoeff === 0) return { balance: balanceAlone(bent, radiusMm), lever }
  const capacityN = strapCapacityN(strap)
  const pullN = (balance: Balance) =>
    Math.min((strap.frictionCoeff * balance.externalMomentNmm) / lever.leverMm, capacityN)
  const over = (neutralMm: number) => {
    const balance = balanceWithNeutral(bent, radiusMm, neutralMm)
    return balance.strapTensionN - pullN(balance)
  }
  const edgeMm = (bent.tube.heightMm / 2) * (1 - 1e-9)
  if (over(edgeMm) <= 0) throw tooMuchPull(pullN(balanceWithNeutral(bent, radiusMm, edgeMm)))
  return { balance: balanceWithNeutral(bent, radiusMm, rootBetween(over, 0, edgeMm, 1e-11)), lever }
}

/** The lever at an angle, refused where the supports leave none. */
export function usableLever(
  bent: BentTube,
  press: Press,
  radiusMm: number,
  phiRad: number,
  room: LeverRoom = leverRoom(),
): Lever {
  const lever = leverInto(room, bent, press, radiusMm, phiRad)
  if (phiRad < Math.PI / 2 && lever.freeMm > 0 && lever.leverMm > 0) return lever
  throw noLever(lever, bent, press, radiusMm, phiRad)
}

function noLever(lever: Lever, bent: BentTube, press: Press, radiusMm: number, phiRad: number): Impossible {
  const leastMm =
    2 * ((radiusMm + lever.offsetMm) * Math.sin(phiRad) + bent.tube.heightMm * Math.max(Math.cos(phiRad), 0))
  return new Impossible(
    'span',
    `${said.mm(press.supportSpanMm)} leaves no free length at the full angle`,
    `a span of at least ${Math.ceil(leastMm)} mm`,
  )
}
