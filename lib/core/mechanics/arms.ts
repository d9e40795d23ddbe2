import { ArmTable } from '@/lib/core/mechanics/arm-table'
import type { Balance } from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'

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
export function armShape(bent: BentTube, balance: Balance, springbackFactor: number): ArmShape {
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
