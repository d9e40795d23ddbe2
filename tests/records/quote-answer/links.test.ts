import { beforeEach, describe, expect, it } from 'vitest'
import { acceptQuote, declineQuote } from '@/lib/records/quote-answer/write'
import { db } from '@/lib/server/db'
import { hashToken } from '@/lib/server/session'
import { freshDatabase } from '@/tests/support/database'
import { bentPart } from '../job/bent-part'

const day = 86_400_000
const by = { name: 'Ines Marlow', note: '' }
let lines: number[]

/** Two quotes of two customers, each with its own link, for the same part. Invented. */
beforeEach(async () => {
  await freshDatabase()
  const { revisionId, customerId } = await bentPart({ withSetup: false })
  const other = await db.customer.create({ data: { name: 'Saltgrass Rowing' } })
  lines = []
  for (const [at, customer] of [customerId, other.id].entries()) {
    const line = { position: 1, revisionId, description: 'Davit arm', leadTimeDays: 14 }
    const quote = await db.quote.create({
      data: {
        number: `Q-000${at + 1}`,
        customerId: customer,
        status: 'sent',
        currency: 'USD',
        taxName: 'Sales tax',
        taxPpm: 0,
        validUntil: new Date(Date.now() + day),
        lines: { create: { ...line, breaks: { create: { quantity: 1, unitCents: 40_000 } } } },
        issues: {
          create: {
            issue: 1,
            tokenHash: hashToken(`link-${at}`),
            snapshot: {},
            expiresAt: new Date(Date.now() + day),
          },
        },
      },
      select: { lines: { select: { id: true } } },
    })
    lines.push(quote.lines[0]?.id ?? 0)
  }
})

const rows = async () => [
  await db.quote.findMany({ orderBy: { id: 'asc' } }),
  await db.quoteLine.findMany({ orderBy: { id: 'asc' } }),
  await db.quoteIssue.findMany({ orderBy: { id: 'asc' } }),
  await db.auditEntry.count(),
]
const accept = (token: string, lineId?: number) =>
  acceptQuote({ token, ...by, choices: [{ lineId: lineId ?? 0, quantity: 1 }] })

describe('A customer’s link', () => {
  it('accepts its own line and leaves the other customer’s quote alone', async () => {
    await accept('link-0', lines[0])
    const quotes = await db.quote.findMany({ orderBy: { id: 'asc' } })
    expect(quotes.map(({ status }) => status)).toEqual(['accepted', 'sent'])
  })

  it('takes no line of another customer’s quote, and nothing is half done', async () => {
    const before = await rows()
    await expect(accept('link-0', lines[1])).rejects.toMatchObject({ code: 'bad-input' })
    expect(await rows()).toEqual(before)
  })

  it.each([
    ['withdrawn', { withdrawnAt: new Date() }],
    ['lapsed', { expiresAt: new Date(Date.now() - 1000) }],
  ])('answers nothing once it is %s', async (word, data) => {
    await db.quoteIssue.updateMany({ where: { tokenHash: hashToken('link-0') }, data })
    const before = await rows()
    const refusal = { code: 'wrong-state', message: expect.stringContaining(word) }
    await expect(accept('link-0', lines[0])).rejects.toMatchObject(refusal)
    await expect(declineQuote({ token: 'link-0', ...by })).rejects.toMatchObject(refusal)
    expect(await rows()).toEqual(before)
  })
})
