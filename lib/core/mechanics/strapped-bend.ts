import { type ArmShape, armShape } from '@/lib/core/mechanics/arms'
import { type Balance, balanceAlone, balanceWithNeutral } from '@/lib/core/mechanics/balance'
import type { BendSetting } from '@/lib/core/mechanics/bend-setting'
import { broydenRoot, type Triple } from '@/lib/core/mechanics/broyden'
import { type Lever, leverAt } from '@/lib/core/mechanics/press'
import { strapCapacityN } from '@/lib/core/mechanics/yielding-strip'

export type StrappedBend = Readonly<{
  loadedRadiusMm: number
  phiRad: number
  balance: Balance
  lever: Lever
  arm: ArmShape
  keptRad: number
}>

/** Nearer than this share to an angle that the arms alone would keep, the slower way decides. */
const nearlyArmsAlone = 0.98

/**
 * A bend with a strap, radius, angle and neutral axis sought at once.
 *   kL - c M_tube / (E I) = kf (or kL of the die);  phi = (wanted - 2 armKept) Rw / (2 RL);  T(y_n) = min(mu_s N, As Fys)
 * Null where it does not settle or comes near a refusal: the caller then solves one inside the other.
 */
export function strappedBend(
  setting: BendSetting,
  startRadiusMm: number,
  isDieGiven: boolean,
): StrappedBend | null {
  const { bent, press, wanted, springbackFactor } = setting
  const { strap, tube } = bent
  if (!strap) return null
  const heightMm = tube.heightMm
  const startCurvature = 1 / startRadiusMm
  const wantedCurvature = 1 / wanted.radiusMm
  const plain = balanceAlone(bent, startRadiusMm)
  const plainArm = armShape(bent, plain, springbackFactor)
  const armsAloneRad = plainArm.keptRadPerMm * press.supportSpanMm
  if (!(armsAloneRad < nearlyArmsAlone * wanted.angleRad)) return null
  const share = (wanted.angleRad * wanted.radiusMm) / 2
  let startPhi = Math.min(share * startCurvature, 1.5)
  for (let turn = 0; turn < 3; turn++) {
    const { freeMm } = leverAt(bent, press, startRadiusMm, startPhi)
    if (!(freeMm > 0)) break
    startPhi = (share - plainArm.keptRadPerMm * freeMm * wanted.radiusMm) * startCurvature
    if (!(startPhi > 0 && startPhi < Math.PI / 2)) return null
  }
  const nudgeMm = 0.002 * heightMm
  const perMm = balanceWithNeutral(bent, startRadiusMm, nudgeMm).strapTensionN / nudgeMm
  if (!(perMm > 0)) return null
  const capacityN = strapCapacityN(strap)
  const tensionFor = (balance: Balance, lever: Lever) =>
    Math.min((strap.frictionCoeff * balance.externalMomentNmm) / lever.leverMm, capacityN)
  const startLever = leverAt(bent, press, startRadiusMm, startPhi)
  if (!(startLever.freeMm > 0 && startLever.leverMm > 0)) return null

  const at = ([curvatureShare, phiRad, neutralShare]: Triple) => {
    const curvature = curvatureShare * startCurvature
    const neutralMm = neutralShare * heightMm
    if (!(curvature > 0 && curvature < 2 / heightMm)) return null
    if (!(phiRad > 0 && phiRad < Math.PI / 2 && neutralShare >= 0 && neutralShare < 0.5)) return null
    const lever = leverAt(bent, press, 1 / curvature, phiRad)
    if (!(lever.freeMm > 0 && lever.leverMm > 0)) return null
    const balance = balanceWithNeutral(bent, 1 / curvature, neutralMm)
    if (!(balance.strapTensionN >= 0 && balance.strapTensionN <= capacityN * (1 + 1e-6))) return null
    const arm = armShape(bent, balance, springbackFactor)
    return { curvature, phiRad, lever, balance, arm, keptRad: arm.keptRadPerMm * lever.freeMm }
  }
  let now: ReturnType<typeof at> = null
  const root = broydenRoot(
    (x) => {
      now = at(x)
      if (!now) return null
      const kept = now.curvature - (springbackFactor * now.balance.tubeMomentNmm) / bent.stiffness
      return [
        (isDieGiven ? now.curvature - startCurvature : kept - wantedCurvature) / startCurvature,
        now.phiRad - (share - now.keptRad * wanted.radiusMm) * now.curvature,
        (now.balance.strapTensionN - tensionFor(now.balance, now.lever)) / (perMm * heightMm),
      ]
    },
    [1, startPhi, tensionFor(plain, startLever) / (perMm * heightMm)],
    1e-10,
  )
  // The root is where the function was asked last.
  const found = root && (now as ReturnType<typeof at>)
  return found ? { ...found, loadedRadiusMm: 1 / found.curvature } : null
}
