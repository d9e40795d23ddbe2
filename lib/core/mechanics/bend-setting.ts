import type { Arm } from '@/lib/core/mechanics/arms'
import type { Balance } from '@/lib/core/mechanics/balance'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import type { Lever, Press } from '@/lib/core/mechanics/press'
import type { Trace } from '@/lib/core/mechanics/trace'

export type WantedBend = Readonly<{ angleRad: number; radiusMm: number }>

/** One bend to be made: the tube with its support, the press, what is wanted, and the shop's springback factor. */
export type BendSetting = Readonly<{
  bent: BentTube
  press: Press
  wanted: WantedBend
  springbackFactor: number
  trace?: Trace
}>

/** A bend at full travel: everything solved together. Angles in radians. */
export type BendInPress = Readonly<{
  loadedRadiusMm: number
  finalRadiusMm: number
  /** Half the arc wrapped on the die, while loaded. */
  phiRad: number
  balance: Balance
  lever: Lever
  arm: Arm
  /** Whole elastic recovery of curvature dk, and its first part at the press dk1. */
  recovery: number
  pressRecovery: number
}>
