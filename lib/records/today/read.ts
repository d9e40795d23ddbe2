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
      _count: { select: { pieces: { where: { status: 'released' } } } },
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

/** Sent quotes whose follow-up day has come, and asks to chase. */
export async function readOpenAnswers(today: Date) {
  const [quotes, asks] = await Promise.all([
    db.quote.findMany({
      where: { status: 'sent' },
      orderBy: [{ followUpOn: 'asc' }, { id: 'asc' }],
      take: most,
      select: {
        id: true,
        number: true,
        validUntil: true,
        followUpOn: true,
        customer: { select: { name: true } },
      },
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
  return { quotes, asks }
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
