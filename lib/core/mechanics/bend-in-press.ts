import { type ArmShape, armOf, armShape } from '@/lib/core/mechanics/arms'
import { type Balance, balanceAlone, balanceInPress, usableLever } from '@/lib/core/mechanics/balance'
import type { BendInPress, BendSetting } from '@/lib/core/mechanics/bend-setting'
import { type Lever, leverAt } from '@/lib/core/mechanics/press'
import { recordBend } from '@/lib/core/mechanics/record-bend'
import { Impossible } from '@/lib/core/mechanics/refusal'
import { rootBetween } from '@/lib/core/mechanics/root'
import { strappedBend } from '@/lib/core/mechanics/strapped-bend'
import { said } from '@/lib/core/sentence'

/**
 * Angle to wrap so that arc and both arms together keep what is wanted, with the strap's tension in balance at that angle.
 *   phi = (wanted - 2 armKept) Rf / (2 RL); the arms' share hangs on phi through the free length
 * Sought between no angle and the one that needs no arms, since the supports may be too close for the larger of them.
 */
function wrap(setting: BendSetting, loadedRadiusMm: number) {
  const { wanted } = setting
  const share = wanted.radiusMm / (2 * loadedRadiusMm)
  const at = heldAt(setting, loadedRadiusMm)
  const over = (phiRad: number) => phiRad - (wanted.angleRad - 2 * at(phiRad).keptRad) * share
  const noArmsRad = wanted.angleRad * share
  const checkSpan = () => usableLever(setting.bent, setting.press, loadedRadiusMm, noArmsRad)
  const flat = flatOr(at, () => noArmsRad < mostPhiRad && checkSpan())
  if (2 * flat.keptRad >= wanted.angleRad) {
    throw new Impossible(
      'angle',
      `the free arms alone would keep ${((flat.keptRad * 360) / Math.PI).toFixed(2)} degrees`,
      'a larger angle, or a shorter span',
    )
  }
  const [low, high] = angleBracket(over, noArmsRad, checkSpan)
  const phiRad = rootBetween(over, low, high, 1e-12)
  return { ...at(phiRad), phiRad }
}

/** The bend at no angle; where not even that stands, a span too short for the whole bend is told first. */
function flatOr(at: (phiRad: number) => Held, checkSpan: () => unknown): Held {
  try {
    return at(0)
  } catch (cause) {
    if (cause instanceof Impossible) checkSpan()
    throw cause
  }
}

/** Just under a right angle: beyond it half the wrap would point back. */
const mostPhiRad = (Math.PI / 2) * (1 - 1e-9)

function tried(over: (phiRad: number) => number, phiRad: number): number | Impossible {
  try {
    return over(phiRad)
  } catch (cause) {
    if (cause instanceof Impossible) return cause
    throw cause
  }
}

/**
 * Two angles between which lies the one to wrap: too little at the first, enough at the second. The arms may keep less than
 * nothing (a large springback factor), so the angle may lie beyond the one that needs none; the supports may give out first.
 */
function angleBracket(
  over: (phiRad: number) => number,
  noArmsRad: number,
  checkSpan: () => unknown,
): [low: number, high: number] {
  let low = 0
  let high = Math.min(noArmsRad, mostPhiRad)
  let value = tried(over, high)
  for (let turn = 0; typeof value === 'number' && value < 0 && mostPhiRad - high > 1e-9; turn++) {
    low = high
    high = turn < 60 ? high + (mostPhiRad - high) * 0.3 : mostPhiRad
    value = tried(over, high)
  }
  if (typeof value === 'number') {
    if (value >= 0) return [low, high]
    throw tooFar()
  }
  let last = value
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2
    const there = tried(over, middle)
    if (typeof there !== 'number') {
      last = there
      high = middle
    } else if (there >= 0) return [low, middle]
    else low = middle
  }
  if (noArmsRad >= mostPhiRad) throw tooFar()
  checkSpan()
  throw last
}

function tooFar(): Impossible {
  return new Impossible('angle', '180 degrees or more under load', 'less than 180 degrees under load')
}

type Held = Readonly<{ balance: Balance; lever: Lever; arm: ArmShape; keptRad: number }>

/** What is held at an angle of this radius. Without a strap that pulls the section does not hang on the angle. */
function heldAt({ bent, press, springbackFactor }: BendSetting, radiusMm: number): (phiRad: number) => Held {
  const withArm = (balance: Balance) => ({ balance, arm: armShape(bent, balance, springbackFactor) })
  const always = bent.strap?.frictionCoeff ? null : withArm(balanceAlone(bent, radiusMm))
  return (phiRad) => {
    const { balance, lever } = always
      ? { ...always, lever: usableLever(bent, press, radiusMm, phiRad) }
      : balanceInPress(bent, press, radiusMm, phiRad)
    const { arm } = always ?? withArm(balance)
    return { balance, lever, arm, keptRad: arm.keptRadPerMm * lever.freeMm }
  }
}

/** Curvature given back when everything is off the tube: c M_tube / (E I). */
function recoveryOf(setting: BendSetting, tubeMomentNmm: number): number {
  return (setting.springbackFactor * tubeMomentNmm) / setting.bent.stiffness
}

function finish(
  setting: BendSetting,
  loadedRadiusMm: number,
  finalRadiusMm: number,
  wrapped: ReturnType<typeof wrap>,
): BendInPress {
  const { bent, press, springbackFactor, trace } = setting
  const { balance, phiRad } = wrapped
  const lever = leverAt(bent, press, loadedRadiusMm, phiRad, trace)
  const made: BendInPress = {
    loadedRadiusMm,
    finalRadiusMm,
    phiRad,
    balance,
    lever,
    arm: armOf(wrapped.arm, lever, trace),
    recovery: recoveryOf(setting, balance.tubeMomentNmm),
    pressRecovery: springbackFactor * bent.pressRecovery(balance.tubeMomentNmm, balance.fillerMomentNmm),
  }
  if (trace) recordBend(trace, setting, made)
  return made
}

/**
 * The loaded radius that springs back to the wanted one.
 *   kL - c M_tube(kL) / (E I) = kf for kL > kf
 * Throws Impossible at 'radius' when the loaded radius would be half the tube's height or less.
 */
function loadedRadiusFor(setting: BendSetting, tubeMomentNmm: (radiusMm: number) => number): number {
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
export function bendOnRightDie(setting: BendSetting): BendInPress {
  const { bent, wanted } = setting
  let loadedRadiusMm = loadedRadiusFor(setting, (radiusMm) => bent.tubeMomentNmm(1 / radiusMm))
  const quick = strappedBend(setting, loadedRadiusMm, false)
  if (quick) return finish(setting, quick.loadedRadiusMm, wanted.radiusMm, quick)
  let wrapped = wrap(setting, loadedRadiusMm)
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
    wrapped = wrap(setting, loadedRadiusMm)
    if (Math.abs(loadedRadiusMm - before) <= 1e-10 * before) break
  }
  return finish(setting, loadedRadiusMm, wanted.radiusMm, wrapped)
}

/**
 * The bend on a die the shop has: the arc as long as on the right die, the radius whatever springs back from this one.
 * Throws Impossible at 'die' when nothing of the bend is kept.
 */
export function bendOnGivenDie(setting: BendSetting, dieSurfaceRadiusMm: number): BendInPress {
  const loadedRadiusMm = dieSurfaceRadiusMm + setting.bent.tube.heightMm / 2
  refuseFlatDie(
    dieSurfaceRadiusMm,
    keptCurvature(setting, loadedRadiusMm, balanceAlone(setting.bent, loadedRadiusMm)),
  )
  const wrapped = strappedBend(setting, loadedRadiusMm, true) ?? wrap(setting, loadedRadiusMm)
  const kept = keptCurvature(setting, loadedRadiusMm, wrapped.balance)
  refuseFlatDie(dieSurfaceRadiusMm, kept)
  return finish(setting, loadedRadiusMm, 1 / kept, wrapped)
}

function keptCurvature(setting: BendSetting, loadedRadiusMm: number, balance: Balance): number {
  return 1 / loadedRadiusMm - recoveryOf(setting, balance.tubeMomentNmm)
}

function refuseFlatDie(dieSurfaceRadiusMm: number, keptPerMm: number): void {
  if (keptPerMm > 0) return
  throw new Impossible(
    'die',
    `${said.mm(dieSurfaceRadiusMm)} is so large that the tube springs straight again`,
    'a smaller die radius',
  )
}
