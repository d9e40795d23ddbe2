import 'server-only'
import { db } from '@/lib/server/db'

const most = 12

/** The open jobs that are due first. */
export async function readDueJobs() {
  return db.job.findMany({
    where: { status: 'open' },
    orderBy: [{ dueOn: 'asc' }, { id: 'asc' }],
    take: most,
    select: {
      id: true,
      number: true,
      quantity: true,
      dueOn: true,
      customer: { select: { name: true } },
      revision: { select: { part: { select: { name: true } } } },
      /** Those that are done. A count of a relation would be made over its whole table. */
      pieces: { where: { status: 'released' }, select: { id: true } },
    },
  })
}

/** Nonconformances nobody has decided yet. */
export async function readOpenFaults() {
  return db.nonconformance.findMany({
    where: { disposition: null },
    orderBy: { id: 'asc' },
    take: most,
    select: { id: true, number: true, description: true, job: { select: { id: true, number: true } } },
  })
}

const quoteSelect = {
  id: true,
  number: true,
  validUntil: true,
  followUpOn: true,
  customer: { select: { name: true } },
} as const

/**
 * Quotes that wait for the customer: those to call about today, those past their last day without an answer, and how many
 * more there are; and asks to chase. A lapsed one is there no more once its follow-up is set to a later day.
 */
export async function readOpenAnswers(today: Date) {
  const sent = { status: 'sent', validUntil: { gte: today } } as const
  const open = { ...sent, OR: [{ followUpOn: null }, { followUpOn: { gt: today } }] }
  const [toCall, lapsed, openCount, next, asks] = await Promise.all([
    db.quote.findMany({
      where: { ...sent, followUpOn: { lte: today } },
      orderBy: [{ followUpOn: 'asc' }, { id: 'asc' }],
      take: most,
      select: quoteSelect,
    }),
    db.quote.findMany({
      where: {
        status: { in: ['sent', 'lapsed'] },
        validUntil: { lt: today },
        OR: [{ followUpOn: null }, { followUpOn: { lte: today } }],
      },
      orderBy: [{ validUntil: 'desc' }, { id: 'asc' }],
      take: most,
      select: quoteSelect,
    }),
    db.quote.count({ where: open }),
    db.quote.findFirst({
      where: { ...sent, followUpOn: { gt: today } },
      orderBy: [{ followUpOn: 'asc' }, { id: 'asc' }],
      select: quoteSelect,
    }),
    db.ask.findMany({
      where: { status: 'sent', chaseOn: { lte: today } },
      orderBy: [{ chaseOn: 'asc' }, { id: 'asc' }],
      take: most,
      select: {
        id: true,
        chaseOn: true,
        source: { select: { name: true } },
        revision: { select: { part: { select: { id: true, name: true } } } },
      },
    }),
  ])
  return { toCall, lapsed, open: { count: openCount, next }, asks }
}

/** What a new shop has yet to enter, for its first day. */
export async function readBeginnings() {
  const [customers, parts, presses] = await Promise.all([
    db.customer.count(),
    db.part.count(),
    db.press.count(),
  ])
  return { customers, parts, presses }
}
