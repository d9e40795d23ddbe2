import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import type { Operation, OperationOverride } from '@/lib/core/cost/operation'
import type { OperationTimes } from '@/lib/core/cost/operation-times'
import { routing } from '@/lib/core/cost/operations'
import { type WayKey, wayNames } from '@/lib/core/cost/ways'
import { formatAngle } from '@/lib/core/format'
import { drawnLengthMm, pieceOf } from '@/lib/core/ways/costed-piece'
import {
  endCut,
  type JobPlan,
  type PlannedRevision,
  type PlannedSetup,
  specTube,
  wayOfSetup,
} from '@/lib/records/job/rules'

/** One piece of the plan as every estimate counts it. Holes and welded ends are decided in an estimate. */
function plannedPiece(revision: PlannedRevision, plan: JobPlan): CostedPart {
  const spec = plan.input ?? { tube: specTube(revision), material: plan.material, bends: revision.bends }
  return pieceOf(
    {
      spec,
      angleToleranceDeg: revision.angleToleranceDeg,
      cutLengthMm: plan.spec?.cutLengthMm ?? plan.mitred?.cutLengthMm ?? Math.max(drawnLengthMm(revision), 1),
      fillerKg: plan.spec?.filler?.massKg ?? 0,
    },
    {
      startCut: endCut(revision.startCut).kind,
      endCut: endCut(revision.endCut).kind,
      holeCount: 0,
      weldedEndCount: 0,
      dyePenetrant: revision.couldHurt,
    },
  )
}

/** What the quoted estimate counted with; null where it does not say, so that the plan is made from the shop as it is. */
export type QuotedWork = Pick<EstimateInput, 'part' | 'support' | 'strap'> & { times: OperationTimes }

/** The work that a kept estimate was made from: the same for each of its quantities. */
export function quotedWork(inputs: unknown): QuotedWork | null {
  const [first] = (inputs as { quantities?: readonly EstimateInput[] } | null | undefined)?.quantities ?? []
  if (!first?.part || !first.rates?.times) return null
  const { part, rates, support, strap } = first
  return { part, times: rates.times, ...(support && { support }), ...(strap !== undefined && { strap }) }
}

/** The operations of the job with their planned minutes: those of the estimate that was quoted, where one was. */
export function plannedOperations(
  revision: PlannedRevision,
  plan: JobPlan,
  times: OperationTimes,
  quoted: { work: QuotedWork | null; overrides: readonly OperationOverride[] } = {
    work: null,
    overrides: [],
  },
): Operation[] {
  const { work, overrides } = quoted
  const route = {
    way: plan.way,
    ...(work ?? {
      part: plannedPiece(revision, plan),
      times,
      ...(plan.setUp && { support: plan.setUp.support, strap: plan.setUp.strap !== null }),
    }),
  }
  const keys = new Set(routing(route).map(({ key }) => key))
  return routing({ ...route, overrides: overrides.filter(({ operationKey }) => keys.has(operationKey)) })
}

const bySetUp: readonly WayKey[] = ['hollow', 'sand', 'lowMelt', 'lowMeltStrap']

/** The way a job is planned in by now: that of a decision made since, or of the set-up where it holds the bore otherwise. */
export function wayByNow(
  made: { way: WayKey; madeAt: string },
  setup: PlannedSetup | null,
  decision: { way: WayKey; decidedAt: Date } | null,
): WayKey {
  if (decision && decision.decidedAt > new Date(made.madeAt)) return decision.way
  return setup && bySetUp.includes(made.way) ? wayOfSetup(setup) : made.way
}

export type KeptOperation = {
  id: number
  key: string
  name: string
  /** Timed or marked done: it stays on record whatever is planned now. */
  begun: boolean
  /** The issue of the traveller from which on it was left out; null while it is planned. */
  leftOutAtIssue: number | null
}

export type OperationChanges = {
  /** Every operation of the new plan in its order, with the row that it had. */
  planned: { operation: Operation; row: KeptOperation | null }[]
  /** No longer planned, but worked on: kept and marked. */
  leftOut: KeptOperation[]
  /** No longer planned and never begun. */
  dropped: KeptOperation[]
}

/** What becomes of a job's operations when it is planned again. */
export function operationChanges(
  kept: readonly KeptOperation[],
  wanted: readonly Operation[],
): OperationChanges {
  const keys = new Set<string>(wanted.map(({ key }) => key))
  const gone = kept.filter(({ key }) => !keys.has(key))
  return {
    planned: wanted.map((operation) => ({
      operation,
      row: kept.find(({ key }) => key === operation.key) ?? null,
    })),
    leftOut: gone.filter(({ begun }) => begun),
    dropped: gone.filter(({ begun }) => !begun),
  }
}

/** The same in words, without what stays as it was. */
export function operationTexts({ planned, leftOut, dropped }: OperationChanges): string[] {
  return [
    ...planned
      .filter(({ row }) => row === null || row.leftOutAtIssue !== null)
      .map(({ operation }) => `added: ${operation.name}`),
    ...dropped.map(({ name }) => `taken out: ${name}`),
    ...leftOut
      .filter(({ leftOutAtIssue }) => leftOutAtIssue === null)
      .map(({ name }) => `no longer planned, its work stays on record: ${name}`),
  ]
}

/** The loaded angles that a new issue changes, with the factor behind them. */
export function targetTexts(made: JobPlan, now: JobPlan): string[] {
  const bends = now.spec?.bends ?? []
  return bends.flatMap((bend, index) => {
    const before = made.spec?.bends[index]
    const [was, is] = [before && formatAngle(before.loadedAngleDeg), formatAngle(bend.loadedAngleDeg)]
    if (was === undefined || was === is) return []
    const factors = `springback × ${made.factor.value.toFixed(2)}, now × ${now.factor.value.toFixed(2)}`
    return [`bend ${index + 1}: load to ${is}, was ${was} (${factors})`]
  })
}

export function wayText(made: WayKey, now: WayKey): string[] {
  return made === now ? [] : [`way: ${wayNames[now]}, was ${wayNames[made]}`]
}
