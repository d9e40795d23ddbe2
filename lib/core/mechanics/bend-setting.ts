import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import type { Press } from '@/lib/core/mechanics/press'

export type WantedBend = Readonly<{ angleRad: number; radiusMm: number }>

/** One bend to be made: the tube with its support, the press, what is wanted, and the shop's springback factor. */
export type BendSetting = Readonly<{
  bent: BentTube
  press: Press
  wanted: WantedBend
  springbackFactor: number
}>
