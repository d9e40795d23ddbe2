import type { ThreePoint } from '@/lib/core/cost/spread'
import { workingDaysBetween } from '@/lib/records/decision/rules'

/** What the asks of one bender say about them; dates are days. */
export type SourceAsk = {
  status: 'sent' | 'quoted' | 'declined' | 'silent'
  sentOn: Date
  repliedOn: Date | null
  promisedOn: Date | null
  deliveredOn: Date | null
  orderedQuantity: number | null
  rejectedQuantity: number | null
}

export type SourceHistory = {
  askedCount: number
  quotedCount: number
  declinedCount: number
  silentCount: number
  waitingCount: number
  /** Of those that are settled, the share that was answered at all; null while none is settled. */
  answeredFraction: number | null
  medianDaysToAnswer: number | null
  deliveredCount: number
  lateCount: number
  /** Mean days past the promise over the late deliveries; null where none was late. */
  meanLateDays: number | null
  /** Pieces turned away over pieces delivered; null while none was delivered. */
  rejectedFraction: number | null
}

/**
 * Working days that a bender's deliveries ran past the promise: none at the least, the median, the most there were.
 * Null without a late delivery. Source: the shop's own records; common practice, no source.
 */
export function lateDaysOf(
  asks: readonly Pick<SourceAsk, 'promisedOn' | 'deliveredOn'>[],
): ThreePoint | null {
  const days = asks.flatMap(({ promisedOn, deliveredOn }) =>
    promisedOn && deliveredOn ? [workingDaysBetween(promisedOn, deliveredOn)] : [],
  )
  const high = Math.max(0, ...days)
  return high === 0 ? null : { low: 0, likely: median(days) ?? 0, high }
}

const dayMs = 86_400_000
const daysBetween = (from: Date, to: Date) => Math.round((to.getTime() - from.getTime()) / dayMs)

function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((one, other) => one - other)
  const middle = Math.floor(sorted.length / 2)
  const upper = sorted[middle]
  if (upper === undefined) return null
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? upper) + upper) / 2
}

/** How a bender has answered and delivered so far. */
export function sourceHistory(asks: readonly SourceAsk[]): SourceHistory {
  const count = (status: SourceAsk['status']) => asks.filter((ask) => ask.status === status).length
  const [quotedCount, declinedCount, silentCount] = [count('quoted'), count('declined'), count('silent')]
  const settled = quotedCount + declinedCount + silentCount
  const delivered = asks.filter((ask) => ask.deliveredOn !== null)
  const lateDays = delivered.flatMap(({ promisedOn, deliveredOn }) =>
    promisedOn && deliveredOn && deliveredOn > promisedOn ? [daysBetween(promisedOn, deliveredOn)] : [],
  )
  const orderedPieces = delivered.reduce((sum, ask) => sum + (ask.orderedQuantity ?? 0), 0)
  const rejectedPieces = delivered.reduce((sum, ask) => sum + (ask.rejectedQuantity ?? 0), 0)
  return {
    askedCount: asks.length,
    quotedCount,
    declinedCount,
    silentCount,
    waitingCount: count('sent'),
    answeredFraction: settled === 0 ? null : (quotedCount + declinedCount) / settled,
    medianDaysToAnswer: median(
      asks.flatMap(({ sentOn, repliedOn }) => (repliedOn ? [daysBetween(sentOn, repliedOn)] : [])),
    ),
    deliveredCount: delivered.length,
    lateCount: lateDays.length,
    meanLateDays:
      lateDays.length === 0 ? null : lateDays.reduce((sum, days) => sum + days, 0) / lateDays.length,
    rejectedFraction: orderedPieces === 0 ? null : rejectedPieces / orderedPieces,
  }
}
