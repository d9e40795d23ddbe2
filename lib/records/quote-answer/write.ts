import 'server-only'
import type { Acceptance, Decline } from '@/lib/records/quote-answer/schema'
import { db, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { hashToken } from '@/lib/server/session'

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
    for (const { lineId, quantity } of chosen) {
      const line = quote.lines.find(({ id }) => id === lineId)
      const least = Math.min(...(line?.breaks.map((step) => step.quantity) ?? [Number.POSITIVE_INFINITY]))
      if (!line || quantity < least)
        throw new Refused('bad-input', 'This quantity was not offered.', 'choices')
      await tx.quoteLine.update({ where: { id: lineId }, data: { acceptedQuantity: quantity } })
    }
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
