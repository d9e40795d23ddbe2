import { type ArmShape, armShape } from '@/lib/core/mechanics/arms'
import { type Balance, balanceInPress } from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import type { Lever, Press } from '@/lib/core/mechanics/press'
import { Impossible } from '@/lib/core/mechanics/refusal'
import { rootBetween } from '@/lib/core/mechanics/root'

export type WantedBend = Readonly<{ angleRad: number; radiusMm: number }>

/** A bend at full travel: everything solved together. Angles in radians. */
export type BendInPress = Readonly<{
  loadedRadiusMm: number
  finalRadiusMm: number
  /** Half the arc wrapped on the die, while loaded. */
  phiRad: number
  balance: Balance
  lever: Lever
  arm: ArmShape
  /** Whole elastic recovery of curvature dk, and its first part at the press dk1. */
  recovery: number
  pressRecovery: number
  armKeptRad: number
  armLoadedRad: number
}>

type Setting = Readonly<{ bent: BentTube; press: Press; wanted: WantedBend; springbackFactor: number }>

/**
 * Angle to wrap so that arc and both arms together keep what is wanted, with the strap's tension in balance at that angle.
 *   phi = (wanted - 2 armKept) Rf / (2 RL); the arms' share hangs on phi through the free length
 * Sought between no angle and the one that needs no arms, since the supports may be too close for the larger of them.
 */
function wrap(setting: Setting, loadedRadiusMm: number, startTensionN: number) {
  const { wanted } = setting
  const share = wanted.radiusMm / (2 * loadedRadiusMm)
  let tensionN = startTensionN
  const at = (phiRad: number) => {
    const now = held(setting, loadedRadiusMm, phiRad, tensionN)
    tensionN = now.balance.strapTensionN
    return now
  }
  const over = (phiRad: number) => phiRad - (wanted.angleRad - 2 * at(phiRad).keptRad) * share
  const flat = at(0)
  if (2 * flat.keptRad >= wanted.angleRad) {
    throw new Impossible(
      'angle',
      `the free arms alone would keep ${((flat.keptRad * 360) / Math.PI).toFixed(2)} degrees`,
      'a larger angle, or a shorter span',
    )
  }
  const most = largestUsable(wanted.angleRad * share, over)
  const phiRad = rootBetween(over, 0, most, 1e-12)
  return { ...at(phiRad), phiRad }
}

/** The angle that needs no arms, or where the press can't reach it the largest it can that is already too much. */
function largestUsable(phiRad: number, over: (phiRad: number) => number): number {
  let low = 0
  let high = phiRad
  for (let turn = 0; turn < 50; turn++) {
    const tried = turn === 0 ? high : (low + high) / 2
    try {
      if (over(tried) >= 0) return tried
      if (turn === 0) return tried * (1 + 1e-9)
      low = tried
    } catch (cause) {
      if (!(cause instanceof Impossible)) throw cause
      high = tried
      if (turn > 40) throw cause
    }
  }
  over(high)
  return high
}

function held(
  { bent, press, springbackFactor }: Setting,
  radiusMm: number,
  phiRad: number,
  tensionN: number,
) {
  const { balance, lever } = balanceInPress(bent, press, radiusMm, phiRad, tensionN)
  const arm = armShape(bent, balance, springbackFactor)
  return { balance, lever, arm, keptRad: arm.keptRadPerMm * lever.freeMm }
}

/** Curvature given back when everything is off the tube: c M_tube / (E I). */
function recoveryOf(setting: Setting, tubeMomentNmm: number): number {
  return (setting.springbackFactor * tubeMomentNmm) / setting.bent.stiffness
}

function finish(
  setting: Setting,
  loadedRadiusMm: number,
  finalRadiusMm: number,
  wrapped: ReturnType<typeof wrap>,
): BendInPress {
  const { balance, lever, arm, keptRad, phiRad } = wrapped
  return {
    loadedRadiusMm,
    finalRadiusMm,
    phiRad,
    balance,
    lever,
    arm,
    recovery: recoveryOf(setting, balance.tubeMomentNmm),
    pressRecovery:
      setting.springbackFactor * setting.bent.pressRecovery(balance.tubeMomentNmm, balance.fillerMomentNmm),
    armKeptRad: keptRad,
    armLoadedRad: arm.loadedRadPerMm * lever.freeMm,
  }
}

/**
 * The loaded radius that springs back to the wanted one.
 *   kL - c M_tube(kL) / (E I) = kf for kL > kf
 * Throws Impossible at 'radius' when the loaded radius would be half the tube's height or less.
 */
function loadedRadiusFor(setting: Setting, tubeMomentNmm: (radiusMm: number) => number): number {
  const wantedCurvature = 1 / setting.wanted.radiusMm
  const most = 2 / setting.bent.tube.heightMm
  const left = (curvature: number) =>
    curvature - recoveryOf(setting, tubeMomentNmm(1 / curvature)) - wantedCurvature
  let low = wantedCurvature
  let high = wantedCurvature
  for (let turn = 0; turn < 400; turn++) {
    high = Math.min(wantedCurvature + (high - wantedCurvature) * 1.6 + wantedCurvature * 0.01, most)
    if (left(high) > 0) return 1 / rootBetween(left, low, high, 1e-13)
    low = high
    if (high >= most) break
  }
  throw new Impossible(
    'radius',
    'no loaded radius springs back to this one',
    `the tube springs back too far: a softer temper or a smaller radius`,
  )
}

/**
 * The bend on the die that gives exactly what is wanted.
 * Throws Impossible at 'radius', 'angle', 'span' or 'strap'.
 */
export function bendOnRightDie(setting: Setting): BendInPress {
  const { bent, wanted } = setting
  let loadedRadiusMm = loadedRadiusFor(setting, (radiusMm) => bent.tubeMomentNmm(1 / radiusMm))
  let wrapped = wrap(setting, loadedRadiusMm, 0)
  for (let turn = 0; bent.strap && turn < 60; turn++) {
    const before = loadedRadiusMm
    const kept = 1 / before - recoveryOf(setting, wrapped.balance.tubeMomentNmm)
    const curvature = 1 / before + (1 / wanted.radiusMm - kept)
    if (!(curvature > 0 && curvature < 2 / bent.tube.heightMm)) {
      throw new Impossible(
        'radius',
        'no loaded radius springs back to this one',
        'a softer temper or a larger radius',
      )
    }
    loadedRadiusMm = 1 / curvature
    wrapped = wrap(setting, loadedRadiusMm, wrapped.balance.strapTensionN)
    if (Math.abs(loadedRadiusMm - before) <= 1e-10 * before) break
  }
  return finish(setting, loadedRadiusMm, wanted.radiusMm, wrapped)
}

/**
 * The bend on a die the shop has: the arc as long as on the right die, the radius whatever springs back from this one.
 * Throws Impossible at 'die' when nothing of the bend is kept.
 */
export function bendOnGivenDie(setting: Setting, dieSurfaceRadiusMm: number): BendInPress {
  const loadedRadiusMm = dieSurfaceRadiusMm + setting.bent.tube.heightMm / 2
  const wrapped = wrap(setting, loadedRadiusMm, 0)
  const kept = 1 / loadedRadiusMm - recoveryOf(setting, wrapped.balance.tubeMomentNmm)
  if (!(kept > 0)) {
    throw new Impossible(
      'die',
      `${dieSurfaceRadiusMm} mm is so large that the tube springs straight again`,
      'a smaller die radius',
    )
  }
  return finish(setting, loadedRadiusMm, 1 / kept, wrapped)
}
