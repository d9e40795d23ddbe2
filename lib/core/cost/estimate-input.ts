import type { SampleRun } from '@/lib/core/cost/cost-model'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { OperationOverride } from '@/lib/core/cost/operation'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import type { ThreePoint } from '@/lib/core/cost/spread'
import type { Support, WayKey } from '@/lib/core/cost/ways'

/** What the tube of a job costs: the starts it was planned for, their cost, and each start more. */
export interface MaterialCost {
  readonly plannedStarts: number
  readonly plannedCents: number
  readonly extraStartCents: number
  readonly from: string
}

/** A die, strap or fixture to make for the job, charged here or spread over the jobs that will use it. */
export interface ToolingItem {
  readonly key: string
  readonly label: string
  readonly makeMinutes: ThreePoint
  readonly materialCents: number
  /** 1 charges it all to this job. */
  readonly spreadOverJobs: number
}

export interface EstimateInput {
  readonly way: Exclude<WayKey, 'outside'>
  readonly pieceCount: number
  readonly part: CostedPart
  readonly rates: ShopRates
  readonly material: MaterialCost
  readonly tooling?: readonly ToolingItem[]
  /** Where the way leaves it open (bent in T4, annealed): what holds the bore. */
  readonly support?: Support
  readonly strap?: boolean
  /** Share of starts that end good; absent: the shop's. */
  readonly firstPassYieldFraction?: number
  readonly overrides?: readonly OperationOverride[]
  readonly sample?: SampleRun
}
