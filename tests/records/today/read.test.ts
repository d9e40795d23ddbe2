import { beforeAll, describe, expect, it } from 'vitest'
import { readBeginnings, readDueJobs, readOpenAnswers } from '@/lib/records/today/read'
import { db } from '@/lib/server/db'
import { freshDatabase } from '@/tests/support/database'

const day = (text: string) => new Date(`${text}T00:00:00Z`)

beforeAll(async () => {
  await freshDatabase()
  const customer = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
  const part = await db.part.create({
    data: {
      number: 'P-0001',
      name: 'Davit arm',
      customerId: customer.id,
      revisions: {
        create: {
          letter: 'A',
          shape: 'square',
          widthMm: 38.1,
          heightMm: 38.1,
          wallMm: 3.175,
          materialId: '6061-T6',
          straightAfterMm: 300,
          startCut: { kind: 'square' },
          endCut: { kind: 'square' },
        },
      },
    },
    select: { revisions: { select: { id: true } } },
  })
  const revisionId = part.revisions[0]?.id ?? 0
  const job = { customerId: customer.id, revisionId, quantity: 2, way: 'coldFilled', plan: {} }
  await db.job.createMany({
    data: [
      { ...job, number: 'J-0001', dueOn: day('2026-03-20') },
      { ...job, number: 'J-0002', dueOn: day('2026-03-01') },
      { ...job, number: 'J-0003', dueOn: day('2026-02-01'), status: 'closed' },
    ],
  })
  const source = await db.source.create({ data: { name: 'Gannet Bending' } })
  const ask = { sourceId: source.id, revisionId, quantities: [1, 5], sentOn: day('2026-03-01') }
  await db.ask.createMany({
    data: [
      { ...ask, chaseOn: day('2026-03-10') },
      { ...ask, chaseOn: day('2026-03-11') },
      { ...ask, chaseOn: day('2026-03-09'), status: 'declined' },
    ],
  })
  const quote = { customerId: customer.id, currency: 'USD', taxName: '', taxPpm: 0, termsText: '', issue: 1 }
  const [sent, later] = ['sent' as const, day('2026-03-31')]
  await db.quote.createMany({
    data: [
      { ...quote, number: 'Q-0001', status: sent, validUntil: later, followUpOn: day('2026-03-10') },
      { ...quote, number: 'Q-0002', status: sent, validUntil: later, followUpOn: day('2026-03-15') },
      { ...quote, number: 'Q-0003', status: sent, validUntil: later },
      {
        ...quote,
        number: 'Q-0004',
        status: sent,
        validUntil: day('2026-03-10'),
        followUpOn: day('2026-03-09'),
      },
      {
        ...quote,
        number: 'Q-0005',
        status: sent,
        validUntil: day('2026-03-09'),
        followUpOn: day('2026-03-02'),
      },
      {
        ...quote,
        number: 'Q-0006',
        status: sent,
        validUntil: day('2026-03-05'),
        followUpOn: day('2026-04-01'),
      },
      { ...quote, number: 'Q-0007', status: 'accepted', validUntil: later },
      { ...quote, number: 'Q-0008', status: 'declined', validUntil: day('2026-03-01') },
      { ...quote, number: 'Q-0009', status: 'draft', validUntil: day('2026-03-01') },
    ],
  })
})

describe('the questions that open the day', () => {
  it('what is due: open jobs, the latest overdue first', async () => {
    expect((await readDueJobs()).map(({ number }) => number)).toEqual(['J-0002', 'J-0001'])
  })

  it('what waits for an answer: requests whose day to chase has come', async () => {
    const { asks } = await readOpenAnswers(day('2026-03-10'))
    expect(asks.map(({ chaseOn }) => chaseOn)).toEqual([day('2026-03-10')])
  })

  it('quotes to call about, those lapsed and those that are merely open are kept apart', async () => {
    const { toCall, lapsed, open } = await readOpenAnswers(day('2026-03-10'))
    // The last day still counts; one that lapsed and is to be asked about later is left alone until then.
    expect(toCall.map(({ number }) => number)).toEqual(['Q-0004', 'Q-0001'])
    expect(lapsed.map(({ number }) => number)).toEqual(['Q-0005'])
    expect([open.count, open.next?.number]).toEqual([2, 'Q-0002'])
  })

  it('a new shop is told what it has yet to enter', async () => {
    expect(await readBeginnings()).toEqual({ customers: 1, parts: 1, presses: 0 })
  })
})
