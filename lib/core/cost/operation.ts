import type { ThreePoint } from '@/lib/core/cost/spread'
import type { WorkCentre } from '@/lib/core/cost/work-centres'

export const operationKeys = [
  'readJob',
  'orderOutside',
  'receive',
  'saw',
  'sawMitres',
  'deburr',
  'mark',
  'anneal',
  'cleanBore',
  'fill',
  'packSand',
  'setUpPress',
  'trial',
  'bend',
  'meltOut',
  'emptySand',
  'checkAngles',
  'dyePenetrant',
  'age',
  'solutionAge',
  'trimEnds',
  'mitreEnds',
  'saddleEnds',
  'fitWeldMitres',
  'fitWeld',
  'drill',
  'inspect',
  'pack',
] as const

export type OperationKey = (typeof operationKeys)[number]

export type OverridableField = 'setUpMinutes' | 'runMinutesPerPiece' | 'elapsedMinutes'

/** A time that a person set instead of the computed one, and why. */
export interface OperationOverride {
  readonly operationKey: OperationKey
  readonly field: OverridableField
  readonly value: ThreePoint
  readonly reason: string
}

/** An override as it acted: what the computation had said, kept beside it. */
export interface AppliedOverride extends OperationOverride {
  readonly original: ThreePoint
}

/**
 * One operation of a routing. Set-up once a job; run for the first piece, later ones by the learning curve where `hand`;
 * elapsed is waiting with nobody standing by, once for each batch of `piecesPerBatch`.
 */
export interface Operation {
  readonly key: OperationKey
  readonly name: string
  readonly workCentre: WorkCentre
  readonly setUpMinutes: ThreePoint
  readonly runMinutesPerPiece: ThreePoint
  readonly elapsedMinutes: ThreePoint
  readonly piecesPerBatch: number
  /** Whether every start runs it, or only pieces that came out good. */
  readonly runsPer: 'start' | 'good'
  /** The part's and the shop's numbers that made these minutes, in words. */
  readonly driver: string
  readonly source: string
  /** Whether a person gets faster at it over the run. */
  readonly hand: boolean
  readonly overridden: readonly AppliedOverride[]
}
