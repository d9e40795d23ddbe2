import 'server-only'
import type { Acceptance, Decline, Won } from '@/lib/records/quote-answer/schema'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { type Actor, hashToken } from '@/lib/server/session'

/** The first answer to a link counts: the row is claimed before anything else is written. */
async function claimIssue(
  tx: Tx,
  token: string,
  answer: 'accepted' | 'declined',
  by: { name: string; note: string },
) {
  const now = new Date()
  const tokenHash = hashToken(token)
  const { count } = await tx.quoteIssue.updateMany({
    where: { tokenHash, answer: null, withdrawnAt: null, expiresAt: { gt: now } },
    data: { answer, answeredAt: now, answeredBy: by.name, answerNote: by.note },
  })
  const issue = await tx.quoteIssue.findUnique({
    where: { tokenHash },
    include: { quote: { include: { lines: { include: { breaks: true } } } } },
  })
  if (!issue) throw new Refused('not-found', 'There is no quote behind this link.')
  if (count === 1) return issue
  if (issue.answer)
    throw new Refused('already-done', `This quote was ${issue.answer} already, by ${issue.answeredBy}.`)
  throw new Refused(
    'wrong-state',
    issue.withdrawnAt
      ? 'This quote was withdrawn: ask for a new one.'
      : 'This quote has lapsed: ask for a new one.',
  )
}

/** The customer accepts lines at quantities that were offered. */
export async function acceptQuote(input: Acceptance): Promise<{ number: string }> {
  return db.$transaction(async (tx) => {
    const { quote, ...issue } = await claimIssue(tx, input.token, 'accepted', input)
    const chosen = input.choices
    await takeLines(tx, quote.lines, chosen)
    await tx.quote.update({
      where: { id: quote.id },
      data: { status: 'accepted', followUpOn: null, version: { increment: 1 } },
    })
    await recordChange(tx, {
      by: `${input.name}, by the customer’s link`,
      action: 'accepted',
      entity: 'Quote',
      entityId: quote.id,
      detailText: input.note,
      after: { issue: issue.issue, chosen },
    })
    return { number: quote.number }
  })
}

type OfferedLine = { id: number; breaks: readonly { quantity: number }[] }

async function takeLines(
  tx: Tx,
  lines: readonly OfferedLine[],
  chosen: readonly { lineId: number; quantity: number }[],
): Promise<void> {
  for (const { lineId, quantity } of chosen) {
    const line = lines.find(({ id }) => id === lineId)
    const least = Math.min(...(line?.breaks.map((step) => step.quantity) ?? [Number.POSITIVE_INFINITY]))
    if (!line || quantity < least) throw new Refused('bad-input', 'This quantity was not offered.', 'choices')
    await tx.quoteLine.update({ where: { id: lineId }, data: { acceptedQuantity: quantity } })
  }
}

/** Notes a yes that came by mail or telephone: the link is answered with it, so that nobody answers twice. */
export async function logAcceptance(input: Won, actor: Actor): Promise<{ version: number }> {
  const { id, version, name, note, choices } = input
  return db.$transaction(async (tx) => {
    const { count } = await tx.quote.updateMany({
      where: { id, version, status: 'sent' },
      data: { status: 'accepted', followUpOn: null, version: { increment: 1 } },
    })
    const quote = await tx.quote.findUnique({
      where: { id },
      include: { lines: { include: { breaks: true } } },
    })
    if (!quote) throw new Refused('not-found', 'There is no such quote.')
    if (count !== 1 && quote.version !== version) throw changedMeanwhile('quote')
    if (count !== 1)
      throw new Refused('wrong-state', `The quote is ${quote.status}: this can’t be done with it now.`)
    const answered = await tx.quoteIssue.updateMany({
      where: { quoteId: id, issue: quote.issue, answer: null, withdrawnAt: null },
      data: {
        answer: 'accepted',
        answeredAt: new Date(),
        answeredBy: `${name}, noted by ${actor.name}`,
        answerNote: note,
      },
    })
    if (answered.count !== 1) throw new Refused('already-done', 'What was sent last was answered already.')
    await takeLines(tx, quote.lines, choices)
    await recordChange(tx, {
      by: actor,
      action: 'noted as accepted',
      entity: 'Quote',
      entityId: id,
      detailText: [name, note].filter(Boolean).join(': '),
      after: { issue: quote.issue, chosen: choices },
    })
    return { version: quote.version }
  })
}

export async function declineQuote(input: Decline): Promise<{ number: string }> {
  return db.$transaction(async (tx) => {
    const { quote, ...issue } = await claimIssue(tx, input.token, 'declined', input)
    await tx.quote.update({
      where: { id: quote.id },
      data: { status: 'declined', lostReason: input.note, followUpOn: null, version: { increment: 1 } },
    })
    await recordChange(tx, {
      by: `${input.name}, by the customer’s link`,
      action: 'declined',
      entity: 'Quote',
      entityId: quote.id,
      detailText: input.note,
      after: { issue: issue.issue },
    })
    return { number: quote.number }
  })
}

/** Notes the first time the customer opened the link. */
export async function noteQuoteRead(token: string): Promise<void> {
  await db.quoteIssue.updateMany({
    where: { tokenHash: hashToken(token), firstReadAt: null },
    data: { firstReadAt: new Date() },
  })
}
