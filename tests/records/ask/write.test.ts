import { beforeAll, describe, expect, it } from 'vitest'
import { readAskHistory, readAskPack, readAsks } from '@/lib/records/ask/read'
import { requestText } from '@/lib/records/ask/rules'
import { chasedForm, declinedForm, orderedForm, quotedForm, sendAsksForm } from '@/lib/records/ask/schema'
import { chaseAsk, giveUpAsk, logDecline, logOrder, logQuote, sendAsks } from '@/lib/records/ask/write'
import { readSource, readSources } from '@/lib/records/source/read'
import { addSource, archiveSource, restoreSource } from '@/lib/records/source/write'
import { db } from '@/lib/server/db'
import { roleMay } from '@/lib/server/permissions'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'

const units = { lengthUnit: 'mm', currency: 'USD' } as const
let actor: Actor
let revisionId = 0
let askIds: number[] = []
let sourceIds: number[] = []

beforeAll(async () => {
  await freshDatabase()
  await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
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
  sourceIds = []
  for (const name of ['Gannet Bending', 'Fulmar Tube']) {
    const { id } = await addSource({ ...blank, name, minimumRadiusRatio: null, maximumSizeMm: null }, actor)
    sourceIds.push(id)
  }
  askIds = (await sendAsks(sendAsksForm.parse(typedAsks()), actor)).ids
})

function typedAsks() {
  return {
    revisionId,
    sourceIds,
    quantities: '20/1, 5',
    sentOn: '2026-03-02',
    chaseOn: '2026-03-09',
    notesText: '',
  }
}

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
      suppliedCentsPerPiece: '0',
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

  const day = (text: string) => new Date(`${text}T00:00:00Z`)
  const quoted = (version: number, unitCents: string) =>
    quotedForm(units).parse({
      id: String(askIds[0]),
      version,
      repliedOn: '2026-03-20',
      prices: [{ quantity: '5', unitCents }],
      toolingCents: '250',
      setUpCents: '0',
      minimumOrderCents: '0',
      freightCents: '45',
      suppliedCentsPerPiece: '0',
      leadTimeDays: '15',
      validUntil: '2026-04-20',
      offeredRadiusMm: '',
      conditionsText: '',
      expectedRejectPct: '5',
      replacesRejects: true,
    })

  it('pressed twice, or by two at once, it is one request a bender', async () => {
    const again = await Promise.all([
      sendAsks(sendAsksForm.parse(typedAsks()), actor),
      sendAsks(sendAsksForm.parse(typedAsks()), actor),
    ])
    for (const { ids } of again) expect([...ids].sort()).toEqual([...askIds].sort())
    expect(await db.ask.count()).toBe(2)
  })

  it('a second quote keeps the first in the history', async () => {
    await logQuote(quoted(1, '79.00'), actor)
    const history = await readAskHistory({ id: askIds[0] ?? 0, revisionId })
    expect(history.map(({ action }) => action)).toEqual(['quoted', 'quoted', 'asked outside'])
    expect(history[0]?.replaced).toEqual([{ quantity: 5, unitCents: 8450 }])
  })

  it('an answer from before it was sent is refused and nothing of it is kept', async () => {
    const early = { ...quoted(2, '10.00'), repliedOn: day('2026-03-01') }
    await expect(logQuote(early, actor)).rejects.toMatchObject({ code: 'bad-input', field: 'repliedOn' })
    const ask = await db.ask.findUniqueOrThrow({ where: { id: askIds[0] ?? 0 }, include: { prices: true } })
    expect(ask).toMatchObject({ version: 2, prices: [{ unitCents: 7900 }] })
  })

  it('what is answered is neither chased nor given up', async () => {
    const chase = chasedForm.parse({ id: askIds[0], version: 2, chaseOn: '2026-05-01' })
    await expect(chaseAsk(chase, actor)).rejects.toMatchObject({ code: 'wrong-state' })
    await expect(giveUpAsk({ id: askIds[0] ?? 0, version: 2 }, actor)).rejects.toMatchObject({
      code: 'wrong-state',
    })
  })

  it('a silent bender who is chased after all waits again, and stands to chase on the day', async () => {
    const typed = { ...typedAsks(), sourceIds: [sourceIds[0]], sentOn: '2026-03-03' }
    const { ids } = await sendAsks(sendAsksForm.parse(typed), actor)
    const id = ids[0] ?? 0
    await giveUpAsk({ id, version: 0 }, actor)
    await chaseAsk(chasedForm.parse({ id, version: 1, chaseOn: '2026-03-30' }), actor)
    const read = (today: string, standing: 'chase' | 'waiting') =>
      readAsks({ search: 'gannet', page: 1, standing, today: day(today) })
    expect((await read('2026-03-29', 'waiting')).asks.map((ask) => ask.id)).toEqual([id])
    expect((await read('2026-03-30', 'chase')).counts).toEqual({
      chase: 1,
      waiting: 0,
      answered: 1,
      declined: 0,
      silent: 0,
    })
    expect((await readAsks({ search: '%', page: 1, standing: null, today: day('2026-03-30') })).asks).toEqual(
      [],
    )
  })

  it('a late order and its rejects stand in the bender’s history', async () => {
    const order = {
      id: askIds[0],
      version: 2,
      orderedOn: '2026-03-22',
      orderedQuantity: '20',
      promisedOn: '2026-04-10',
      deliveredOn: '2026-04-16',
      rejectedQuantity: '1',
    }
    await logOrder(orderedForm.parse(order), actor)
    // By hand: 10 to 16 April is 6 days; 1 of 20 is 0.05; 2 March to 20 March is 18 days.
    expect((await readSource(sourceIds[0] ?? 0))?.history).toMatchObject({
      askedCount: 2,
      answeredFraction: 1,
      medianDaysToAnswer: 18,
      deliveredCount: 1,
      lateCount: 1,
      meanLateDays: 6,
      rejectedFraction: 0.05,
    })
  })

  it('what goes out names neither the customer nor a price', async () => {
    const read = await readAskPack(askIds[0] ?? 0)
    if (!read) throw new Error('the ask is there')
    const text = requestText(read.pack, 'mm', read.shop.name)
    expect(text).toContain('P-0001 rev A')
    expect(text).not.toMatch(/Kestrel|79|84\.50/)
    expect(JSON.stringify(read.pack)).not.toContain('Kestrel')
  })

  it('a bender put away is no longer asked, keeps what was asked, and can be brought back', async () => {
    const id = sourceIds[1] ?? 0
    const { version } = await archiveSource({ id, version: 0 }, actor)
    const typed = { ...typedAsks(), sentOn: '2026-03-08' }
    await expect(sendAsks(sendAsksForm.parse(typed), actor)).rejects.toMatchObject({ code: 'bad-input' })
    expect(await db.ask.count({ where: { sourceId: id } })).toBe(1)
    const list = await readSources({ search: '', page: 1, archived: true })
    expect(list.sources.map(({ name }) => name)).toEqual(['Fulmar Tube'])
    await restoreSource({ id, version }, actor)
  })

  it('the bench sees no asks and no benders', () => {
    for (const permission of ['ask.read', 'ask.write', 'source.read', 'source.write'] as const) {
      expect(roleMay('bench', permission)).toBe(false)
      expect(roleMay('office', permission)).toBe(true)
    }
  })

  it('a failure half-way leaves the requests, prices and versions as they were', async () => {
    const before = await db.ask.findMany({ include: { prices: true }, orderBy: { id: 'asc' } })
    await refuseHistory()
    const typed = { ...typedAsks(), sentOn: '2026-03-07' }
    await expect(sendAsks(sendAsksForm.parse(typed), actor)).rejects.toThrow(/history is refused/)
    await expect(logQuote(quoted(3, '1.00'), actor)).rejects.toThrow(/history is refused/)
    await expect(archiveSource({ id: sourceIds[0] ?? 0, version: 0 }, actor)).rejects.toThrow(/history/)
    expect(await db.ask.findMany({ include: { prices: true }, orderBy: { id: 'asc' } })).toEqual(before)
    expect(await db.source.count({ where: { archivedAt: { not: null } } })).toBe(0)
  })
})
