import 'server-only'
import { cache } from 'react'
import { type QuoteStanding, quoteSnapshot, standingOn } from '@/lib/records/quote/rules'
import { db, Prisma } from '@/lib/server/db'
import { hashToken } from '@/lib/server/session'

export const quotesPerPage = 50

export type QuoteFilter = {
  search: string
  standing: QuoteStanding | 'open' | 'follow' | ''
  page: number
  today: Date
}

function whereStanding(standing: QuoteFilter['standing'], today: Date): Prisma.QuoteWhereInput {
  if (standing === '') return {}
  if (standing === 'open')
    return { OR: [{ status: 'draft' }, { status: 'sent', validUntil: { gte: today } }] }
  if (standing === 'follow') return { status: 'sent', validUntil: { gte: today }, followUpOn: { lte: today } }
  if (standing === 'lapsed')
    return { OR: [{ status: 'lapsed' }, { status: 'sent', validUntil: { lt: today } }] }
  if (standing === 'sent') return { status: 'sent', validUntil: { gte: today } }
  return { status: standing }
}

/** One page of quotes, newest first. */
export async function readQuotes(filter: QuoteFilter) {
  const text = filter.search.trim()
  const where: Prisma.QuoteWhereInput = {
    ...whereStanding(filter.standing, filter.today),
    ...(text && {
      AND: [
        {
          OR: [
            { number: { contains: text, mode: 'insensitive' } },
            { customer: { name: { contains: text, mode: 'insensitive' } } },
          ],
        },
      ],
    }),
  }
  const [count, rows] = await Promise.all([
    db.quote.count({ where }),
    db.quote.findMany({
      where,
      orderBy: filter.standing === 'follow' ? [{ followUpOn: 'asc' }, { id: 'asc' }] : { id: 'desc' },
      skip: (filter.page - 1) * quotesPerPage,
      take: quotesPerPage,
      select: {
        id: true,
        number: true,
        status: true,
        validUntil: true,
        followUpOn: true,
        issue: true,
        currency: true,
        customer: { select: { id: true, name: true } },
        lines: {
          orderBy: { position: 'asc' },
          select: {
            description: true,
            acceptedQuantity: true,
            breaks: { orderBy: { quantity: 'asc' }, select: { quantity: true, unitCents: true } },
          },
        },
      },
    }),
  ])
  return { count, rows: rows.map((row) => ({ ...row, standing: standingOn(row, filter.today) })) }
}

/** A quote with everything its screen shows. */
export const readQuote = cache(async (id: number) =>
  db.quote.findUnique({
    where: { id },
    include: {
      customer: { select: { id: true, name: true } },
      lines: {
        orderBy: { position: 'asc' },
        include: {
          breaks: { orderBy: { quantity: 'asc' } },
          estimate: { select: { id: true, number: true } },
          revision: {
            select: { id: true, letter: true, part: { select: { id: true, number: true, name: true } } },
          },
          job: { select: { id: true, number: true } },
        },
      },
      issues: { orderBy: { issue: 'desc' } },
    },
  }),
)

/** Parts of a customer that a quote may offer: the newest revision of each. */
export async function readQuotableParts(customerId: number) {
  const parts = await db.part.findMany({
    where: { customerId, archivedAt: null },
    orderBy: { number: 'asc' },
    select: {
      id: true,
      number: true,
      name: true,
      revisions: { orderBy: { id: 'desc' }, take: 1, select: { id: true, letter: true } },
    },
  })
  return parts.flatMap(({ revisions, ...part }) =>
    revisions[0] ? [{ ...part, revision: revisions[0] }] : [],
  )
}

export async function readQuoteCustomers() {
  return db.customer.findMany({
    where: { archivedAt: null },
    orderBy: { name: 'asc' },
    select: { id: true, name: true },
    take: 500,
  })
}

/** What the customer's link opens; null when no sending has this token. */
export async function readSentQuote(token: string) {
  const issue = await db.quoteIssue.findUnique({
    where: { tokenHash: hashToken(token) },
    include: {
      quote: {
        select: { status: true, issue: true, lines: { select: { id: true, acceptedQuantity: true } } },
      },
    },
  })
  if (!issue) return null
  const snapshot = quoteSnapshot.parse(issue.snapshot)
  const now = new Date()
  const state = issue.answer ?? (issue.withdrawnAt ? 'withdrawn' : issue.expiresAt <= now ? 'lapsed' : 'open')
  return { ...issue, snapshot, before: await readIssueSnapshot(issue.quoteId, issue.issue - 1), state }
}

/** A sending of a quote as it went out, for its paper. */
export async function readIssueSnapshot(quoteId: number, issue: number) {
  const row = await db.quoteIssue.findUnique({
    where: { quoteId_issue: { quoteId, issue } },
    select: { snapshot: true },
  })
  return row ? quoteSnapshot.parse(row.snapshot) : null
}
