import type { Alloy } from '@/lib/core/materials/alloys'
import type { Filler, LowMeltFiller } from '@/lib/core/materials/low-melt'
import type { Heating } from '@/lib/core/temper/reheat'
import type { WeldAnswer } from '@/lib/core/temper/weld'

export type WayName =
  | 'hollowCold'
  | 'sandCold'
  | 'lowMeltCold'
  | 'lowMeltStrapCold'
  | 'bentInT4ThenAged'
  | 'annealedBentTreated'
  | 'hot'
  | 'mitredWelded'
  | 'sentOut'

/** What of an alloy decides its temper after bending; a part with its own material values can make one up. */
export type TemperAlloy = Pick<
  Alloy,
  | 'id'
  | 'family'
  | 'temper'
  | 'heatTreatable'
  | 'yieldMPa'
  | 'tensileMPa'
  | 'minimumYieldMPa'
  | 'minimumTensileMPa'
>

/**
 * One way of making the part and the temper it ends in. Strengths are the lowest specified for that temper (what a part may be designed on),
 * typical ones where none is specified. exposureUsed is the share of the time-at-temperature budget; over 1 the strengths don’t hold.
 */
export type TemperWay = Readonly<{
  way: WayName
  title: string
  isChosen: boolean
  steps: readonly string[]
  endTemper: string
  yieldMPa: number
  tensileMPa: number
  exposureUsed: number
  springbackNote: string
  atWelds?: WeldAnswer
  notes: readonly string[]
}>

export type RuledOut = Readonly<{ way: WayName; title: string; because: string }>

/** A way, or why it doesn't come into question. */
export type WayAnswer = TemperWay | RuledOut

export type TemperPart = Readonly<{
  alloy: TemperAlloy
  support: 'hollow' | 'sand' | 'lowMelt'
  strap: boolean
  filler?: Filler
  wallMm?: number
  weldedAfter?: boolean
  pour?: Heating
  meltOut?: Heating
  hot?: Heating
  /** How often the tube is filled and melted out: 1 unless bends are made in several fillings. */
  fillings?: number
}>

export type TemperSetting = Readonly<{
  part: TemperPart
  alloy: TemperAlloy
  filler: LowMeltFiller
  pour: Heating
  meltOut: Heating
  hot: Heating
  fillings: number
  atWelds?: WeldAnswer
}>

export const wayTitles: Readonly<Record<WayName, string>> = {
  hollowCold: 'Cold and hollow, in the final temper',
  sandCold: 'Cold, packed with sand, in the final temper',
  lowMeltCold: 'Cold, filled with low-melt alloy, in the final temper',
  lowMeltStrapCold: 'Cold, filled with low-melt alloy and backed by a strap, in the final temper',
  bentInT4ThenAged: 'Bent soft in T4, then aged',
  annealedBentTreated: 'Annealed, bent, then heat treated',
  hot: 'Bent hot',
  mitredWelded: 'Cut, mitred and welded',
  sentOut: 'Sent out to be bent',
}
