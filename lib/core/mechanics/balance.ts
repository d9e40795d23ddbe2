import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { type Lever, leverAt, type Press } from '@/lib/core/mechanics/press'
import { Impossible } from '@/lib/core/mechanics/refusal'
import { rootBetween } from '@/lib/core/mechanics/root'
import { strapCapacityN } from '@/lib/core/mechanics/yielding-strip'

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

/**
 * The section at radius R carrying a strap tension T.
 *   integral of s(e) dA = -T gives y_n;  M_ext = M_tube + M_filler + M_strap + T (h/2 + ts/2)
 * Source: the strap as a separate strip with friction, sections 3 and 4 of the project's bend model. Mechanics.
 * Throws Impossible at 'strap' when the tube can't carry T with the neutral axis inside it.
 */
export function balanceAt(bent: BentTube, radiusMm: number, strapTensionN: number): Balance {
  const curvature = 1 / radiusMm
  const fillerMomentNmm = bent.fillerMomentNmm(curvature)
  if (!bent.strap || strapTensionN === 0) {
    const tubeMomentNmm = bent.tubeMomentNmm(curvature)
    const strapMoment = bent.strapMomentNmm(curvature, 0)
    const externalMomentNmm = tubeMomentNmm + fillerMomentNmm + strapMoment
    return {
      neutralMm: 0,
      strapTensionN: 0,
      tubeMomentNmm,
      fillerMomentNmm,
      strapMomentNmm: strapMoment,
      externalMomentNmm,
    }
  }
  return balanceWithNeutral(bent, radiusMm, neutralAxisMm(bent, radiusMm, strapTensionN))
}

/** The section at radius R with its neutral axis at y_n, and the strap tension that holds it there. */
export function balanceWithNeutral(bent: BentTube, radiusMm: number, neutralMm: number): Balance {
  const curvature = 1 / radiusMm
  const { forceN, momentNmm } = bent.tubeForces(radiusMm, neutralMm)
  const strapTensionN = -forceN
  const fillerMomentNmm = bent.fillerMomentNmm(curvature)
  const strapMoment = bent.strapMomentNmm(curvature, strapTensionN)
  return {
    neutralMm,
    strapTensionN,
    tubeMomentNmm: momentNmm,
    fillerMomentNmm,
    strapMomentNmm: strapMoment,
    externalMomentNmm: momentNmm + fillerMomentNmm + strapMoment + strapTensionN * outwardMm(bent),
  }
}

function neutralAxisMm(bent: BentTube, radiusMm: number, tensionN: number): number {
  const edgeMm = bent.tube.heightMm / 2
  const left = (neutralMm: number) => bent.tubeForces(radiusMm, neutralMm).forceN + tensionN
  const edge = edgeMm * (1 - 1e-9)
  if (left(edge) >= 0) {
    throw new Impossible(
      'strap',
      `the strap pulls ${(tensionN / 1000).toFixed(1)} kN, more than the tube can carry in compression`,
      'a thinner, narrower or softer strap, or less friction',
    )
  }
  return rootBetween(left, 0, edge, 1e-11)
}

/** The tension friction lets the strap carry: min(mu_s N, As Fys), N from the moment and the lever. */
function frictionTensionN(bent: BentTube, lever: Lever, externalMomentNmm: number): number {
  if (!bent.strap) return 0
  return Math.min((bent.strap.frictionCoeff * externalMomentNmm) / lever.leverMm, strapCapacityN(bent.strap))
}

/**
 * Balance of section and supports at half the wrapped angle: y_n, N and T solved together.
 * Throws Impossible at 'span' where the supports are too close, at 'strap' where the tube can't carry the strap's tension.
 */
export function balanceInPress(
  bent: BentTube,
  press: Press,
  radiusMm: number,
  phiRad: number,
  startTensionN = 0,
): { balance: Balance; lever: Lever } {
  const lever = usableLever(bent, press, radiusMm, phiRad)
  let balance = balanceAt(
    bent,
    radiusMm,
    bent.strap ? Math.min(startTensionN, strapCapacityN(bent.strap)) : 0,
  )
  if (!bent.strap) return { balance, lever }
  for (let turn = 0; turn < 200; turn++) {
    const tensionN = frictionTensionN(bent, lever, balance.externalMomentNmm)
    const change = tensionN - balance.strapTensionN
    if (Math.abs(change) <= 1e-10 * Math.max(tensionN, 1)) break
    balance = balanceAt(bent, radiusMm, tensionN)
  }
  return { balance, lever }
}

/** The lever at an angle, refused where the supports leave none. */
export function usableLever(bent: BentTube, press: Press, radiusMm: number, phiRad: number): Lever {
  const lever = leverAt(bent, press, radiusMm, phiRad)
  if (phiRad < Math.PI / 2 && lever.freeMm > 0 && lever.leverMm > 0) return lever
  const leastMm =
    2 * ((radiusMm + lever.offsetMm) * Math.sin(phiRad) + bent.tube.heightMm * Math.max(Math.cos(phiRad), 0))
  throw new Impossible(
    'span',
    `${press.supportSpanMm} mm leaves no free length at the full angle`,
    `a span of at least ${Math.ceil(leastMm)} mm`,
  )
}
