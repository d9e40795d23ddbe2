import { countFactor } from '@/lib/core/cost/cost-model'
import type { Estimate } from '@/lib/core/cost/estimate'
import type { ThreePoint } from '@/lib/core/cost/spread'

/** A line of two versions of an estimate, and what became of it. */
export interface LineDifference {
  readonly key: string
  readonly label: string
  readonly beforeCents: number | null
  readonly afterCents: number | null
  readonly changeCents: number
  readonly what: 'new' | 'gone' | 'changed' | 'same'
  readonly because: string
}

export interface EstimateDifference {
  readonly lines: readonly LineDifference[]
  readonly likelyChangeCents: number
  readonly meanChangeCents: number
  readonly text: string
}

type ComparedEstimate = Pick<Estimate, 'lines' | 'likelyCents'> & {
  readonly costCents: Pick<Estimate['costCents'], 'mean'>
}

/**
 * What changed between two versions of an estimate, line by line, largest change first.
 *   change = after - before of the likely values; a line in one only counts whole
 * Valid: lines are matched by key. Changes of the lines add up to the change of their sum.
 */
export function estimateDifference(before: ComparedEstimate, after: ComparedEstimate): EstimateDifference {
  const keys = [...new Set([...before.lines, ...after.lines].map(({ key }) => key))]
  const lines = keys
    .map((key): LineDifference => {
      const old = before.lines.find((line) => line.key === key)
      const now = after.lines.find((line) => line.key === key)
      const changeCents = (now?.likelyCents ?? 0) - (old?.likelyCents ?? 0)
      const what = !old
        ? 'new'
        : !now
          ? 'gone'
          : changeCents === 0 && old.from === now.from
            ? 'same'
            : 'changed'
      return {
        key,
        label: now?.label ?? old?.label ?? key,
        beforeCents: old?.likelyCents ?? null,
        afterCents: now?.likelyCents ?? null,
        changeCents,
        what,
        because: becauseText(old?.from, now?.from),
      }
    })
    .sort((one, other) => Math.abs(other.changeCents) - Math.abs(one.changeCents))
  const likelyChangeCents = after.likelyCents - before.likelyCents
  const changed = lines.filter(({ what }) => what !== 'same').length
  return {
    lines,
    likelyChangeCents,
    meanChangeCents: after.costCents.mean - before.costCents.mean,
    text: changed === 0 ? 'nothing changed' : `${changed} ${changed === 1 ? 'line' : 'lines'} changed`,
  }
}

/** What the bench logged against one operation of a job. */
export interface ActualOperation {
  readonly operationKey: string
  readonly name: string
  readonly minutes: number
}

export interface OperationVariance {
  readonly operationKey: string
  readonly name: string
  readonly plannedMinutes: ThreePoint
  readonly actualMinutes: number | null
  readonly differenceMinutes: number | null
  /** Actual over planned likely; null where nothing was planned or logged. */
  readonly ratio: number | null
  readonly verdict: 'within' | 'over' | 'under' | 'notLogged' | 'notPlanned'
}

/**
 * Minutes logged against minutes planned, by operation.
 *   within where low <= actual <= high of the plan
 * Valid: planned minutes for the pieces actually started, set-up and run together.
 */
export function operationVariances(
  planned: readonly { readonly operationKey: string; readonly name: string; readonly minutes: ThreePoint }[],
  actual: readonly ActualOperation[],
): OperationVariance[] {
  const plannedOnes = planned.map(({ operationKey, name, minutes }): OperationVariance => {
    const logged = actual.filter((one) => one.operationKey === operationKey)
    if (logged.length === 0) {
      return {
        operationKey,
        name,
        plannedMinutes: minutes,
        actualMinutes: null,
        differenceMinutes: null,
        ratio: null,
        verdict: 'notLogged',
      }
    }
    const actualMinutes = logged.reduce((sum, one) => sum + one.minutes, 0)
    return {
      operationKey,
      name,
      plannedMinutes: minutes,
      actualMinutes,
      differenceMinutes: actualMinutes - minutes.likely,
      ratio: minutes.likely > 0 ? actualMinutes / minutes.likely : null,
      verdict: actualMinutes > minutes.high ? 'over' : actualMinutes < minutes.low ? 'under' : 'within',
    }
  })
  const unplannedKeys = new Set(
    actual
      .map(({ operationKey }) => operationKey)
      .filter((key) => !planned.some(({ operationKey }) => operationKey === key)),
  )
  const unplanned = [...unplannedKeys].map((operationKey): OperationVariance => {
    const logged = actual.filter((one) => one.operationKey === operationKey)
    const actualMinutes = logged.reduce((sum, one) => sum + one.minutes, 0)
    return {
      operationKey,
      name: logged[0]?.name ?? operationKey,
      plannedMinutes: { low: 0, likely: 0, high: 0 },
      actualMinutes,
      differenceMinutes: actualMinutes,
      ratio: null,
      verdict: 'notPlanned',
    }
  })
  return [...plannedOnes, ...unplanned]
}

/** The minutes planned for each operation of an estimate at the starts that were really made. */
export function plannedOperationMinutes(
  estimate: Pick<Estimate, 'operations' | 'model' | 'starts'>,
  starts: number,
): { operationKey: string; name: string; minutes: ThreePoint }[] {
  return estimate.operations.map(({ key, name }) => {
    const minutes = { low: 0, likely: 0, high: 0 }
    for (const item of estimate.model.items) {
      if (item.group !== 'labour' || !item.key.startsWith(`${key}:`)) continue
      const factor = countFactor(item, estimate.model, Math.max(starts, estimate.model.goodPieces))
      minutes.low += item.quantity.low * factor
      minutes.likely += item.quantity.likely * factor
      minutes.high += item.quantity.high * factor
    }
    return { operationKey: key, name, minutes }
  })
}

function becauseText(before: string | undefined, after: string | undefined): string {
  if (before === undefined) return `now: ${after ?? ''}`
  if (after === undefined) return `was: ${before}`
  return before === after ? 'same basis' : `was: ${before}; now: ${after}`
}
