import { z } from 'zod'
import { dominatedRanges } from '@/lib/core/cost/breaks'
import { marginAndMarkup, taxCents } from '@/lib/core/cost/money'

/** How a quote stands on a day. 'lapsed' is a sent quote past its last day. */
export type QuoteStanding = 'draft' | 'sent' | 'accepted' | 'declined' | 'lapsed' | 'withdrawn'

export const standingWords: Readonly<Record<QuoteStanding, string>> = {
  draft: 'Draft',
  sent: 'Sent, waits for an answer',
  accepted: 'Accepted',
  declined: 'Declined',
  lapsed: 'Lapsed without an answer',
  withdrawn: 'Withdrawn',
}

/** The quote's state on a day; valid to the end of its last day. */
export function standingOn(quote: { status: QuoteStanding; validUntil: Date }, today: Date): QuoteStanding {
  const ended = today.getTime() >= quote.validUntil.getTime() + 86_400_000
  return quote.status === 'sent' && ended ? 'lapsed' : quote.status
}

const dayFormatters = new Map<string, Intl.DateTimeFormat>()

/** The day in the shop's time zone as midnight UTC, as days are kept. */
export function dayInZone(moment: Date, timeZone: string): Date {
  const format = dayFormatters.get(timeZone) ?? new Intl.DateTimeFormat('en-CA', { timeZone })
  dayFormatters.set(timeZone, format)
  return new Date(`${format.format(moment)}T00:00:00Z`)
}

/** The first moment after a day in the shop's time zone: until then what holds through that day holds. */
export function momentAfterDay(day: Date, timeZone: string): Date {
  // No zone is further from UTC than 14 hours; every one begins its days at a full minute.
  let before = day.getTime() / 60_000 - 14 * 60
  let after = before + (24 + 28) * 60
  while (after - before > 1) {
    const middle = Math.floor((before + after) / 2)
    if (dayInZone(new Date(middle * 60_000), timeZone) > day) after = middle
    else before = middle
  }
  return new Date(after * 60_000)
}

/** What was sent, whole: the customer's page and paper show this, whatever changes in the shop since. */
export const quoteSnapshot = z.object({
  number: z.string(),
  issue: z.number().int(),
  sentOn: z.string(),
  validUntil: z.string(),
  shop: z.object({
    name: z.string(),
    addressText: z.string(),
    contactText: z.string(),
    paper: z.enum(['letter', 'a4']),
    timeZone: z.string(),
    /** Quotes sent before the shop had one say nothing of it. */
    logoId: z.number().int().nullable().optional(),
  }),
  customer: z.object({ name: z.string(), addressText: z.string() }),
  currency: z.string(),
  taxName: z.string(),
  taxPpm: z.number().int(),
  termsText: z.string(),
  noteText: z.string(),
  lines: z.array(
    z.object({
      lineId: z.number().int(),
      position: z.number().int(),
      partNumber: z.string(),
      revision: z.string(),
      customerRef: z.string(),
      description: z.string(),
      leadTimeDays: z.number().int(),
      breaks: z.array(z.object({ quantity: z.number().int(), unitCents: z.number().int() })),
    }),
  ),
})
export type QuoteSnapshot = z.output<typeof quoteSnapshot>

/** One quantity of a line with what it comes to. */
export function breakTotals(step: { quantity: number; unitCents: number }, taxPpm: number) {
  const netCents = step.quantity * step.unitCents
  const tax = taxCents(netCents, taxPpm)
  return { netCents, taxCents: tax, grossCents: netCents + tax }
}

/** Margin on the price and markup on the cost, both named; null where the cost is not known. */
export function earned(step: { unitCents: number; costCents: number | null }) {
  return step.costCents === null ? null : marginAndMarkup(step.costCents, step.unitCents)
}

/** Where a larger order would cost less than a smaller one: a list that invites that is not fair. */
export function unfairBreaks(breaks: readonly { quantity: number; unitCents: number }[]): string[] {
  if (
    new Set(breaks.map(({ quantity }) => quantity)).size < breaks.length ||
    breaks.some(({ unitCents }) => unitCents <= 0)
  )
    return []
  const steps = breaks.map(({ quantity, unitCents }) => ({
    fromPieceCount: quantity,
    unitPriceCents: unitCents,
  }))
  return dominatedRanges(steps).map(
    ({ fromPieceCount, toPieceCount, cheaperPieceCount }) =>
      `${fromPieceCount === toPieceCount ? `${fromPieceCount} pieces cost` : `${fromPieceCount} to ${toPieceCount} pieces cost`} more than ${cheaperPieceCount}.`,
  )
}

export type IssueDifference = { what: string; before: string; after: string }

/** What one sending of a quote has otherwise than the one before, in the shop's words. */
export function issueDifferences(
  before: QuoteSnapshot,
  after: QuoteSnapshot,
  money: (cents: number) => string,
): IssueDifference[] {
  const rows = (snapshot: QuoteSnapshot): [string, string][] => [
    ['Valid until', snapshot.validUntil],
    [snapshot.taxName || 'Tax', `${snapshot.taxPpm / 10_000} %`],
    ['Terms', snapshot.termsText || '–'],
    ['Note', snapshot.noteText || '–'],
    ...snapshot.lines.flatMap((line): [string, string][] => [
      [`${line.partNumber}, what is offered`, line.description],
      [`${line.partNumber}, revision`, line.revision],
      [`${line.partNumber}, lead time`, `${line.leadTimeDays} calendar days`],
      ...line.breaks.map(({ quantity, unitCents }): [string, string] => [
        `${line.partNumber}, each from ${quantity}`,
        money(unitCents),
      ]),
    ]),
  ]
  const [old, now] = [new Map(rows(before)), new Map(rows(after))]
  return [...new Set([...old.keys(), ...now.keys()])].flatMap((what) => {
    const [was, is] = [old.get(what) ?? '–', now.get(what) ?? '–']
    return was === is ? [] : [{ what, before: was, after: is }]
  })
}

/** The differences as the customer reads them on the paper: a long text is only named. */
export function changeWords(
  before: QuoteSnapshot,
  after: QuoteSnapshot,
  money: (cents: number) => string,
): string[] {
  return issueDifferences(before, after, money).map(({ what, before: was, after: now }) => {
    if (what === 'Terms' || what === 'Note') return `${what}: changed.`
    if (was === '–') return `${what}: ${now}, new.`
    return now === '–' ? `${what}: no longer offered.` : `${what}: ${now}, was ${was}.`
  })
}

/** Whether a step sells for less than it costs the shop. */
export function soldBelowCost(step: { unitCents: number; costCents: number | null }): boolean {
  return step.costCents !== null && step.unitCents > 0 && step.unitCents < step.costCents
}
