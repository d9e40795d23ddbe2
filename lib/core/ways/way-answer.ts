import type { Support, WayKey } from '@/lib/core/cost/ways'
import type { SpecAnswer, SpecInput } from '@/lib/core/spec/contract'
import type { TemperWay } from '@/lib/core/temper/way'
import type { Governing, WayWord } from '@/lib/core/ways/judge-spec'
import type { MitredBuild } from '@/lib/core/ways/mitred'
import type { Remedy } from '@/lib/core/ways/remedy'

/** A thing a way calls for, and whether the shop has it. */
export interface Need {
  readonly what: 'press' | 'die' | 'strap' | 'filler' | 'heatTreat' | 'fixture' | 'source'
  readonly text: string
  readonly have: boolean
}

/** What the finished part can be expected to hold. */
export interface ToleranceExpected {
  /** Plus or minus, one standard deviation of tube strength either way, before any trial; null where nothing is known. */
  readonly angleDeg: number | null
  /** Share of the section's height that a face sinks or the diameter loses; 0 where nothing is bent. */
  readonly sectionLossFraction: number | null
  readonly text: string
}

/** Whether and how one way of making the part can be done here. */
export interface WayAnswer {
  readonly way: WayKey
  readonly name: string
  readonly word: WayWord
  /** The deciding number in words. */
  readonly because: string
  readonly governing: Governing | null
  /** Smallest change first; empty where it can be done as it is. */
  readonly remedies: readonly Remedy[]
  readonly support: Support
  readonly strap: boolean
  readonly tolerance: ToleranceExpected
  readonly temper: TemperWay | null
  readonly needs: readonly Need[]
  readonly warnings: readonly string[]
  readonly spec: { readonly input: SpecInput; readonly answer: SpecAnswer } | null
  readonly mitred: MitredBuild | null
}
