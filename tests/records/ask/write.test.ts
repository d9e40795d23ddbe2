import { beforeAll, describe, expect, it } from 'vitest'
import { declinedForm, quotedForm, sendAsksForm } from '@/lib/records/ask/schema'
import { logDecline, logQuote, sendAsks } from '@/lib/records/ask/write'
import { addSource } from '@/lib/records/source/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'

const units = { lengthUnit: 'mm', currency: 'USD' } as const
let actor: Actor
let revisionId = 0
let askIds: number[] = []

beforeAll(async () => {
  await freshDatabase()
  actor = await actorWithRole('office')
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
  revisionId = part.revisions[0]?.id ?? 0
  const blank = { contactText: '', email: '', phone: '', canBendText: '', alloysText: '', notesText: '' }
  const sourceIds: number[] = []
  for (const name of ['Gannet Bending', 'Fulmar Tube']) {
    const { id } = await addSource({ ...blank, name, minimumRadiusRatio: null, maximumSizeMm: null }, actor)
    sourceIds.push(id)
  }
  const typed = {
    revisionId,
    sourceIds,
    quantities: '20/1, 5',
    sentOn: '2026-03-02',
    chaseOn: '2026-03-09',
    notesText: '',
  }
  askIds = (await sendAsks(sendAsksForm.parse(typed), actor)).ids
})

describe('asking outside', () => {
  it('one request goes to each bender, quantities smallest first', async () => {
    const asks = await db.ask.findMany({ where: { revisionId } })
    expect(asks).toHaveLength(2)
    expect(asks[0]?.quantities).toEqual([1, 5, 20])
  })

  it('a quote keeps a price for each quantity, and a second save over it is refused', async () => {
    const typed = {
      id: String(askIds[0]),
      version: 0,
      repliedOn: '2026-03-05',
      prices: [{ quantity: '5', unitCents: '84.50' }],
      toolingCents: '250',
      setUpCents: '0',
      minimumOrderCents: '0',
      freightCents: '45',
      leadTimeDays: '15',
      validUntil: '2026-04-05',
      offeredRadiusMm: '',
      conditionsText: 'bends in T4',
      expectedRejectPct: '5',
      replacesRejects: false,
    }
    const quote = quotedForm(units).parse(typed)
    expect(await logQuote(quote, actor)).toEqual({ version: 1 })
    const ask = await db.ask.findUnique({ where: { id: askIds[0] ?? 0 }, include: { prices: true } })
    expect(ask?.status).toBe('quoted')
    expect(ask?.prices.map(({ unitCents }) => unitCents)).toEqual([8450])
    await expect(logQuote(quote, actor)).rejects.toMatchObject({ code: 'changed-meanwhile' })
  })

  it('a no is kept with its reason', async () => {
    const typed = {
      id: String(askIds[1]),
      version: 0,
      repliedOn: '2026-03-04',
      declineReason: 'radius too tight',
    }
    await logDecline(declinedForm.parse(typed), actor)
    const ask = await db.ask.findUnique({ where: { id: askIds[1] ?? 0 } })
    expect(ask).toMatchObject({ status: 'declined', declineReason: 'radius too tight' })
  })
})
