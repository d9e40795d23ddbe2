import { formatNumber, formatPercent } from '@/lib/core/format'
import type { SourceHistory } from '@/lib/records/source/rules'

const count = (number: number, one: string, many = `${one}s`) => `${number} ${number === 1 ? one : many}`

/** "4 of 5 answered, in 6 days as a rule": one line for a list or a choice. */
export function answerWords(history: SourceHistory): string {
  if (history.askedCount === 0) return 'never asked'
  const settled = history.askedCount - history.waitingCount
  if (settled === 0) return 'first request still open'
  const answered = history.quotedCount + history.declinedCount
  const days = history.medianDaysToAnswer
  return `${answered} of ${settled} answered${days === null ? '' : `, in ${count(Number(formatNumber(days, { decimals: 1 })), 'day')} as a rule`}`
}

export function deliveryWords(history: SourceHistory): string {
  if (history.deliveredCount === 0) return 'no order kept yet'
  const late =
    history.lateCount === 0
      ? 'none late'
      : `${history.lateCount} late, by ${count(Number(formatNumber(history.meanLateDays ?? 0, { decimals: 1 })), 'calendar day')} on average`
  const rejected =
    history.rejectedFraction === null ? '' : `; ${formatPercent(history.rejectedFraction)} turned away`
  return `${count(history.deliveredCount, 'order')} delivered, ${late}${rejected}`
}
