import { ArmTable } from '@/lib/core/mechanics/arm-table'
import type { Balance } from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import type { Lever } from '@/lib/core/mechanics/press'
import type { Trace, TraceInput } from '@/lib/core/mechanics/trace'

/** What one free arm turns by, for one millimetre of free length; its bow for one square millimetre. */
export type ArmShape = Readonly<{
  loadedRadPerMm: number
  keptRadPerMm: number
  /** At the press after the ram backs off, the filler still in. */
  atPressRadPerMm: number
  bowPerMm: number
}>

const tables = new WeakMap<BentTube, ArmTable>()

function tableOf(bent: BentTube): ArmTable {
  const known = tables.get(bent)
  if (known) return known
  const made = new ArmTable(bent)
  tables.set(bent, made)
  return made
}

/**
 * What the arm between the end of contact and the support turns by while loaded, at the press and after melt-out, and its bow.
 *   k(x) solves M_tube(k) + M_filler(k) + M_strap(k) = m x / s,  m = M_ext - T (h/2 + ts/2)
 *   loaded = integral of k dx,  kept = integral of (k - c M_tube(k) / (E I)) dx,  at the press = integral of (k - c x(k)) dx,
 *   bow = integral of k x dx,  x = 0 at the support;  dx = s dM / m
 * Source: section 6 of the project's bend model. Mechanics.
 */
export function armShape(
  bent: BentTube,
  balance: Pick<Balance, 'externalMomentNmm' | 'strapTensionN'>,
  springbackFactor: number,
): ArmShape {
  const outwardMm = bent.strap ? bent.tube.heightMm / 2 + bent.strap.thicknessMm / 2 : 0
  const end = balance.externalMomentNmm - balance.strapTensionN * outwardMm
  const sums = tableOf(bent).upTo(end)
  const loaded = sums.curvature / end
  return {
    loadedRadPerMm: loaded,
    keptRadPerMm: loaded - (springbackFactor * sums.tube) / (end * bent.stiffness),
    atPressRadPerMm: loaded - (springbackFactor * sums.recovery) / end,
    bowPerMm: sums.bow / end ** 2,
  }
}

/** What one arm of a free length turns by, and how far its support end lies off the tangent at the end of contact. */
export type Arm = Readonly<{ loadedRad: number; atPressRad: number; keptRad: number; bowMm: number }>

export function armOf(shape: ArmShape, lever: Lever, trace?: Trace): Arm {
  const arm = {
    loadedRad: shape.loadedRadPerMm * lever.freeMm,
    atPressRad: shape.atPressRadPerMm * lever.freeMm,
    keptRad: shape.keptRadPerMm * lever.freeMm,
    bowMm: shape.bowPerMm * lever.freeMm ** 2,
  }
  if (trace) record(trace, arm, lever)
  return arm
}

function record(trace: Trace, arm: Arm, lever: Lever): void {
  const inputs: TraceInput[] = [
    ['s', lever.freeMm, 'mm', 'freeLengthMm'],
    [
      'k(x)',
      'the curvature at which tube, filler and strap carry the moment x / s of the end',
      '',
      'externalMomentNmm',
    ],
  ]
  const add = (key: string, formula: string, value: number, unit: string) =>
    trace.step(key, {
      formula,
      inputs,
      value,
      unit,
      source: 'beam plasticity, moment falling to nothing at the support',
      trust: 'mechanics',
    })
  const degrees = (angleRad: number) => (angleRad * 180) / Math.PI
  add('armLoadedDeg', 'one arm under load = integral of k dx', degrees(arm.loadedRad), '°')
  add(
    'armAtPressDeg',
    'one arm at the press = integral of (k - c x(k)) dx, x the recovery with the filler in',
    degrees(arm.atPressRad),
    '°',
  )
  add('armKeptDeg', 'one arm kept = integral of (k - c M_tube(k) / (E I)) dx', degrees(arm.keptRad), '°')
  add('armBowMm', 'bow = integral of k x dx', arm.bowMm, 'mm')
}
