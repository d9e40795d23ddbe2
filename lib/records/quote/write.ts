import 'server-only'
import { openJobFromLine } from '@/lib/records/job/write'
import { dayInZone, momentAfterDay, type QuoteSnapshot } from '@/lib/records/quote/rules'
import type {
  AddLine,
  FollowUp,
  LostQuote,
  NewQuote,
  OpenJob,
  QuoteDraft,
  QuotePress,
} from '@/lib/records/quote/schema'
import { readFirstLines } from '@/lib/records/quote-line/read'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { nextNumber } from '@/lib/server/numbering'
import { type Actor, hashToken, newToken } from '@/lib/server/session'

const dayMs = 86_400_000

async function shopFor(tx: Tx) {
  return tx.shop.findUniqueOrThrow({ where: { id: 1 } })
}

/** Claims the quote at the version it was seen at; from here on nobody else changes it in this transaction. */
async function claim(
  tx: Tx,
  press: QuotePress,
  statuses: readonly ('draft' | 'sent' | 'accepted' | 'declined' | 'lapsed' | 'withdrawn')[],
) {
  const { count } = await tx.quote.updateMany({
    where: { id: press.id, version: press.version, status: { in: [...statuses] } },
    data: { version: { increment: 1 } },
  })
  if (count === 1) return tx.quote.findUniqueOrThrow({ where: { id: press.id } })
  const now = await tx.quote.findUnique({ where: { id: press.id }, select: { version: true, status: true } })
  if (!now) throw new Refused('not-found', 'There is no such quote.')
  if (now.version !== press.version) throw changedMeanwhile('quote')
  throw new Refused('wrong-state', `The quote is ${now.status}: this can’t be done with it now.`)
}

/** Starts a draft for one customer with a line for each part. */
export async function createQuote(input: NewQuote, actor: Actor): Promise<{ id: number }> {
  return db.$transaction((tx) => startQuote(tx, input, actor))
}

export async function startQuote(tx: Tx, input: NewQuote, actor: Actor): Promise<{ id: number }> {
  const shop = await shopFor(tx)
  const lines = await readFirstLines(tx, [...new Set(input.revisionIds)], input.customerId)
  const today = dayInZone(new Date(), shop.timeZone)
  const number = await nextNumber(tx, 'quote')
  const quote = await tx.quote.create({
    data: {
      number,
      customerId: input.customerId,
      currency: shop.currency,
      taxName: shop.taxName,
      taxPpm: shop.taxPpm,
      termsText: shop.quoteTermsText,
      validUntil: new Date(today.getTime() + shop.quoteValidDays * dayMs),
      lines: { create: lines.map((line, index) => ({ ...line, position: index + 1 })) },
    },
    select: { id: true },
  })
  await recordChange(tx, {
    by: actor,
    action: 'started',
    entity: 'Quote',
    entityId: quote.id,
    after: { number, ...input },
  })
  return quote
}

/** One more part on a draft. */
export async function addQuoteLine(input: AddLine, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const quote = await claim(tx, input, ['draft'])
    const last = await tx.quoteLine.aggregate({
      where: { quoteId: input.id },
      _max: { position: true },
      _count: true,
    })
    if (last._count >= 50) throw new Refused('wrong-state', 'A quote has at most 50 lines.')
    const [line] = await readFirstLines(tx, [input.revisionId], quote.customerId)
    if (!line) throw new Refused('not-found', 'There is no such part.')
    await tx.quoteLine.create({
      data: { ...line, quoteId: input.id, position: (last._max.position ?? 0) + 1 },
    })
    await recordChange(tx, {
      by: actor,
      action: 'added a line to',
      entity: 'Quote',
      entityId: input.id,
      after: input,
    })
    return { version: quote.version }
  })
}

/** Saves a draft as it was typed. A line's estimate stays with it; costs behind its breaks stay where the quantity does. */
export async function saveQuote(input: QuoteDraft, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const quote = await claim(tx, input, ['draft'])
    const before = await tx.quoteLine.findMany({ where: { quoteId: input.id }, include: { breaks: true } })
    const known = new Map(before.map((line) => [line.id, line]))
    if (input.lines.some((line) => !known.has(line.id))) throw changedMeanwhile('quote')
    await tx.quoteLine.deleteMany({
      where: { quoteId: input.id, id: { notIn: input.lines.map(({ id }) => id) } },
    })
    // Positions are unique within a quote: move all out of the way before each gets its new one.
    await tx.quoteLine.updateMany({ where: { quoteId: input.id }, data: { position: { increment: 1000 } } })
    await tx.quoteBreak.deleteMany({ where: { line: { quoteId: input.id } } })
    await tx.quoteBreak.createMany({
      data: input.lines.flatMap((line) =>
        line.breaks.map(({ quantity, unitPrice }) => ({
          lineId: line.id,
          quantity,
          unitCents: unitPrice,
          costCents: known.get(line.id)?.breaks.find((step) => step.quantity === quantity)?.costCents ?? null,
        })),
      ),
    })
    for (const [index, line] of input.lines.entries()) {
      await tx.quoteLine.update({
        where: { id: line.id },
        data: { position: index + 1, description: line.description, leadTimeDays: line.leadTimeDays },
      })
    }
    const { validUntil, termsText, noteText, taxName, taxPpm } = input
    const data = { validUntil, termsText, noteText, taxName, taxPpm }
    await tx.quote.update({ where: { id: input.id }, data })
    await recordChange(tx, {
      by: actor,
      action: 'changed',
      entity: 'Quote',
      entityId: input.id,
      before: {
        validUntil: quote.validUntil,
        termsText: quote.termsText,
        noteText: quote.noteText,
        taxName: quote.taxName,
        taxPpm: quote.taxPpm,
        lines: before,
      },
      after: input,
    })
    return { version: quote.version }
  })
}

/** Freezes what is offered and makes the customer's link, which is shown once: only its hash is kept. */
export async function sendQuote(
  press: QuotePress,
  actor: Actor,
): Promise<{ linkPath: string; issue: number; version: number }> {
  return db.$transaction(async (tx) => {
    const quote = await claim(tx, press, ['draft'])
    const shop = await shopFor(tx)
    const customer = await tx.customer.findUniqueOrThrow({ where: { id: quote.customerId } })
    const lines = await tx.quoteLine.findMany({
      where: { quoteId: quote.id },
      orderBy: { position: 'asc' },
      include: { breaks: { orderBy: { quantity: 'asc' } }, revision: { include: { part: true } } },
    })
    const today = dayInZone(new Date(), shop.timeZone)
    if (quote.validUntil < today)
      throw new Refused('bad-input', 'The last day has passed already: pick a later one.', 'validUntil')
    const unpriced = lines.find((line) => line.breaks.some((step) => step.unitCents === 0))
    if (unpriced)
      throw new Refused('wrong-state', `Line ${unpriced.position} has a quantity without a price.`)
    const issue = quote.issue + 1
    const snapshot: QuoteSnapshot = {
      number: quote.number,
      issue,
      sentOn: today.toISOString().slice(0, 10),
      validUntil: quote.validUntil.toISOString().slice(0, 10),
      shop: {
        name: shop.name,
        addressText: shop.addressText,
        contactText: shop.contactText,
        paper: shop.paper,
        timeZone: shop.timeZone,
        logoId: shop.logoId,
      },
      customer: { name: customer.name, addressText: customer.addressText },
      currency: quote.currency,
      taxName: quote.taxName,
      taxPpm: quote.taxPpm,
      termsText: quote.termsText,
      noteText: quote.noteText,
      lines: lines.map((line) => ({
        lineId: line.id,
        position: line.position,
        partNumber: line.revision.part.number,
        revision: line.revision.letter,
        customerRef: line.revision.part.customerRef,
        description: line.description,
        leadTimeDays: line.leadTimeDays,
        breaks: line.breaks.map(({ quantity, unitCents }) => ({ quantity, unitCents })),
      })),
    }
    const token = newToken()
    await tx.quoteIssue.create({
      data: {
        quoteId: quote.id,
        issue,
        tokenHash: hashToken(token),
        snapshot,
        expiresAt: momentAfterDay(quote.validUntil, shop.timeZone),
      },
    })
    await tx.partRevision.updateMany({
      where: { id: { in: lines.map(({ revisionId }) => revisionId) }, frozenAt: null },
      data: { frozenAt: new Date() },
    })
    await tx.quote.update({
      where: { id: quote.id },
      data: {
        status: 'sent',
        issue,
        followUpOn: new Date(Math.min(today.getTime() + 7 * dayMs, quote.validUntil.getTime())),
      },
    })
    await recordChange(tx, {
      by: actor,
      action: 'sent',
      entity: 'Quote',
      entityId: quote.id,
      after: snapshot,
    })
    return { linkPath: `/q/${token}`, issue, version: quote.version }
  })
}

/** A new link to what was sent, for one that was lost or went to the wrong hands; the earlier one opens nothing any more. */
export async function renewLink(
  press: QuotePress,
  actor: Actor,
): Promise<{ linkPath: string; version: number }> {
  return db.$transaction(async (tx) => {
    const quote = await claim(tx, press, ['sent'])
    const token = newToken()
    const { count } = await tx.quoteIssue.updateMany({
      where: { quoteId: quote.id, issue: quote.issue, answer: null, withdrawnAt: null },
      data: { tokenHash: hashToken(token), firstReadAt: null },
    })
    if (count !== 1) throw new Refused('wrong-state', 'What was sent last takes no answer any more.')
    await recordChange(tx, { by: actor, action: 'made a new link to', entity: 'Quote', entityId: quote.id })
    return { linkPath: `/q/${token}`, version: quote.version }
  })
}

/** Takes a sent quote back: its link says so from now on. */
export async function withdrawQuote(press: QuotePress, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const quote = await claim(tx, press, ['sent'])
    await tx.quoteIssue.updateMany({
      where: { quoteId: quote.id, answer: null, withdrawnAt: null },
      data: { withdrawnAt: new Date() },
    })
    await tx.quote.update({ where: { id: quote.id }, data: { status: 'withdrawn', followUpOn: null } })
    await recordChange(tx, { by: actor, action: 'withdrew', entity: 'Quote', entityId: quote.id })
    return { version: quote.version }
  })
}

/** Opens a quote for change again; what was sent stays as it was, its link no longer takes an answer. */
export async function reviseQuote(press: QuotePress, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const quote = await claim(tx, press, ['sent', 'declined', 'withdrawn', 'lapsed'])
    await tx.quoteIssue.updateMany({
      where: { quoteId: quote.id, answer: null, withdrawnAt: null },
      data: { withdrawnAt: new Date() },
    })
    const shop = await shopFor(tx)
    const soonest = new Date(dayInZone(new Date(), shop.timeZone).getTime() + shop.quoteValidDays * dayMs)
    await tx.quote.update({
      where: { id: quote.id },
      data: {
        status: 'draft',
        followUpOn: null,
        lostReason: '',
        validUntil: quote.validUntil > soonest ? quote.validUntil : soonest,
      },
    })
    await recordChange(tx, { by: actor, action: 'opened for revision', entity: 'Quote', entityId: quote.id })
    return { version: quote.version }
  })
}

/** Notes that the customer said no another way than by the link, and why. */
export async function markQuoteLost(input: LostQuote, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const quote = await claim(tx, input, ['sent', 'declined', 'lapsed'])
    await tx.quoteIssue.updateMany({
      where: { quoteId: quote.id, answer: null, withdrawnAt: null },
      data: { withdrawnAt: new Date() },
    })
    await tx.quote.update({
      where: { id: quote.id },
      data: { status: 'declined', lostReason: input.lostReason, followUpOn: null },
    })
    await recordChange(tx, {
      by: actor,
      action: 'marked lost',
      entity: 'Quote',
      entityId: quote.id,
      after: { lostReason: input.lostReason },
    })
    return { version: quote.version }
  })
}

export async function setFollowUp(input: FollowUp, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const quote = await claim(tx, input, ['draft', 'sent', 'lapsed'])
    await tx.quote.update({ where: { id: quote.id }, data: { followUpOn: input.followUpOn } })
    await recordChange(tx, {
      by: actor,
      action: 'set the follow-up of',
      entity: 'Quote',
      entityId: quote.id,
      after: { followUpOn: input.followUpOn },
    })
    return { version: quote.version }
  })
}

/** Makes the job of an accepted line: once, however often and by whomever it is pressed. */
export async function openAcceptedLine(
  input: OpenJob,
  actor: Actor,
): Promise<{ jobId: number; number: string }> {
  return db.$transaction(async (tx) => {
    const line = await tx.quoteLine.findUnique({
      where: { id: input.quoteLineId },
      select: { acceptedQuantity: true, quote: { select: { status: true } } },
    })
    if (!line) throw new Refused('not-found', 'There is no such line.')
    if (line.quote.status !== 'accepted' || line.acceptedQuantity === null) {
      throw new Refused('wrong-state', 'Only a line the customer accepted becomes a job.')
    }
    return openJobFromLine(
      tx,
      { quoteLineId: input.quoteLineId, quantity: line.acceptedQuantity, dueOn: input.dueOn },
      actor,
    )
  })
}
