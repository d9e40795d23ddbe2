import { beforeEach, describe, expect, it } from 'vitest'
import { readQuotes, readSentQuote } from '@/lib/records/quote/read'
import { dayInZone } from '@/lib/records/quote/rules'
import { lostForm, quoteForm } from '@/lib/records/quote/schema'
import {
  addQuoteLine,
  createQuote,
  markQuoteLost,
  openAcceptedLine,
  renewLink,
  reviseQuote,
  saveQuote,
  sendQuote,
  setFollowUp,
  withdrawQuote,
} from '@/lib/records/quote/write'
import { wonForm } from '@/lib/records/quote-answer/schema'
import { acceptQuote, declineQuote, logAcceptance, noteQuoteRead } from '@/lib/records/quote-answer/write'
import { db } from '@/lib/server/db'
import { roleMay } from '@/lib/server/permissions'
import type { Actor } from '@/lib/server/session'
import { bentPart } from '@/tests/records/job/bent-part'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'

const units = { lengthUnit: 'in', currency: 'USD' } as const
const iso = (at: Date) => at.toISOString().slice(0, 10)
const inDays = (count: number) => iso(new Date(Date.now() + count * 86_400_000))
let office: Actor
let customerId: number
let revisionId: number
let quoteId: number

beforeEach(async () => {
  await freshDatabase()
  office = await actorWithRole('office')
  ;({ customerId, revisionId } = await bentPart())
  await db.shop.update({
    where: { id: 1 },
    data: { taxName: 'Sales tax', taxPpm: 82_500, quoteTermsText: 'Net 30.' },
  })
  quoteId = (await createQuote({ customerId, revisionIds: [revisionId] }, office)).id
})

const quoteNow = () =>
  db.quote.findUniqueOrThrow({
    where: { id: quoteId },
    include: { lines: { include: { breaks: true } }, issues: true },
  })
const press = async () => ({ id: quoteId, version: (await quoteNow()).version })
type Step = { quantity: string; unitPrice: string }

async function draft(
  over: { steps?: Step[]; taxPpm?: string; taxName?: string; validUntil?: string; noteText?: string } = {},
) {
  const { version, lines } = await quoteNow()
  return quoteForm(units).safeParse({
    id: quoteId,
    version,
    validUntil: over.validUntil ?? inDays(30),
    termsText: 'Net 30.',
    noteText: over.noteText ?? '',
    taxName: over.taxName ?? 'Sales tax',
    taxPpm: over.taxPpm ?? '8.25',
    lines: lines.map(({ id }) => ({
      id,
      description: 'Davit arm',
      leadTimeDays: '21',
      breaks: over.steps ?? [
        { quantity: '1', unitPrice: '412.50' },
        { quantity: '6', unitPrice: '189' },
      ],
    })),
  })
}

async function save(over: Parameters<typeof draft>[0] = {}) {
  const parsed = await draft(over)
  if (!parsed.success) throw new Error(parsed.error.issues[0]?.message)
  return saveQuote(parsed.data, office)
}

async function sent(): Promise<string> {
  await save()
  return (await sendQuote(await press(), office)).linkPath.slice('/q/'.length)
}

const yes = async (quantity: string, over: object = {}) => {
  const { version, lines } = await quoteNow()
  const choices = lines.map(({ id }) => ({ lineId: id, quantity }))
  return wonForm.parse({ id: quoteId, version, name: 'Ines Marlow', note: 'PO 1144', choices, ...over })
}

describe('A draft', () => {
  it('takes the shop’s tax, terms and days of validity, and can be taxed otherwise for its customer', async () => {
    const fresh = await quoteNow()
    expect(fresh).toMatchObject({
      taxName: 'Sales tax',
      taxPpm: 82_500,
      termsText: 'Net 30.',
      status: 'draft',
    })
    await save({ taxPpm: '0', taxName: '' })
    expect(await quoteNow()).toMatchObject({ taxName: '', taxPpm: 0 })
  })

  it('with a tax that has no name is refused at the name', async () => {
    expect((await draft({ taxName: ' ' })).error?.issues[0]?.path).toEqual(['taxName'])
  })

  it('holds twelve quantities of a line, a thirteenth and a doubled one are refused', async () => {
    const steps = (count: number) =>
      Array.from({ length: count }, (_, index) => ({
        quantity: String(index + 1),
        unitPrice: String(500 - index),
      }))
    await save({ steps: steps(12) })
    expect((await quoteNow()).lines[0]?.breaks).toHaveLength(12)
    expect((await draft({ steps: steps(13) })).success).toBe(false)
    expect(
      (await draft({ steps: [...steps(2), { quantity: '2', unitPrice: '1' }] })).error?.issues[0]?.message,
    ).toBe('2 stands here twice')
  })

  it('keeps the cost behind a quantity that stays, whatever its price becomes', async () => {
    const lineId = (await quoteNow()).lines[0]?.id ?? 0
    await save()
    await db.quoteBreak.updateMany({ where: { lineId, quantity: 6 }, data: { costCents: 15_000 } })
    await save({
      steps: [
        { quantity: '6', unitPrice: '200' },
        { quantity: '9', unitPrice: '190' },
      ],
    })
    const steps = await db.quoteBreak.findMany({ where: { lineId }, orderBy: { quantity: 'asc' } })
    expect(steps.map(({ quantity, unitCents, costCents }) => [quantity, unitCents, costCents])).toEqual([
      [6, 20_000, 15_000],
      [9, 19_000, null],
    ])
  })

  it('saved over by an older form is refused and stays as it was', async () => {
    const older = await draft()
    await save({ noteText: 'first' })
    if (!older.success) throw new Error('the form is whole')
    await expect(saveQuote(older.data, office)).rejects.toMatchObject({ code: 'changed-meanwhile' })
    expect((await quoteNow()).noteText).toBe('first')
  })

  it('takes another part of its customer and no part of another’s', async () => {
    await addQuoteLine({ ...(await press()), revisionId }, office)
    expect((await quoteNow()).lines).toHaveLength(2)
    const other = await db.customer.create({ data: { name: 'Gannet Workboats' } })
    await expect(
      createQuote({ customerId: other.id, revisionIds: [revisionId] }, office),
    ).rejects.toMatchObject({
      code: 'bad-input',
    })
  })
})

describe('Sending', () => {
  it('freezes what is offered: the shop’s later changes do not reach it', async () => {
    const token = await sent()
    await db.shop.update({ where: { id: 1 }, data: { name: 'Renamed' } })
    await db.quoteBreak.updateMany({ data: { unitCents: 1 } })
    const read = await readSentQuote(token)
    expect(read?.snapshot.shop.name).not.toBe('Renamed')
    expect(read?.snapshot.lines[0]?.breaks).toEqual([
      { quantity: 1, unitCents: 41_250 },
      { quantity: 6, unitCents: 18_900 },
    ])
    expect((await db.partRevision.findUniqueOrThrow({ where: { id: revisionId } })).frozenAt).not.toBeNull()
  })

  it('keeps the link open through its last day in the shop’s own time, and not an hour longer', async () => {
    await db.shop.update({ where: { id: 1 }, data: { timeZone: 'America/New_York' } })
    await sent()
    const { validUntil, issues } = await quoteNow()
    const end = issues[0]?.expiresAt ?? new Date(0)
    expect(dayInZone(new Date(end.getTime() - 1), 'America/New_York')).toEqual(validUntil)
    expect(dayInZone(end, 'America/New_York').getTime()).toBe(validUntil.getTime() + 86_400_000)
  })

  it('is refused without a price, and past the last day', async () => {
    await save({ steps: [{ quantity: '1', unitPrice: '0' }] })
    await expect(sendQuote(await press(), office)).rejects.toMatchObject({ code: 'wrong-state' })
    await save({ validUntil: inDays(-2) })
    await expect(sendQuote(await press(), office)).rejects.toMatchObject({
      code: 'bad-input',
      field: 'validUntil',
    })
    expect(await db.quoteIssue.count()).toBe(0)
  })

  it('by two people at once makes one link', async () => {
    await save()
    const at = await press()
    const both = await Promise.allSettled([sendQuote(at, office), sendQuote(at, office)])
    expect(both.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    expect(await db.quoteIssue.count()).toBe(1)
  })

  it('again makes a second issue; the first link takes no answer any more and the second shows what was before', async () => {
    const first = await sent()
    await reviseQuote(await press(), office)
    await save({ steps: [{ quantity: '6', unitPrice: '179' }] })
    const second = (await sendQuote(await press(), office)).linkPath.slice('/q/'.length)
    expect((await readSentQuote(first))?.state).toBe('withdrawn')
    const read = await readSentQuote(second)
    expect([read?.issue, read?.before?.issue, read?.state]).toEqual([2, 1, 'open'])
  })
})

describe('A link that is opened', () => {
  it('is noted the first time, and a strange one changes nothing', async () => {
    const token = await sent()
    await noteQuoteRead('a'.repeat(43))
    expect((await quoteNow()).issues[0]?.firstReadAt).toBeNull()
    await noteQuoteRead(token)
    const first = (await quoteNow()).issues[0]?.firstReadAt
    expect(first).toBeInstanceOf(Date)
    await noteQuoteRead(token)
    expect((await quoteNow()).issues[0]?.firstReadAt).toEqual(first)
  })
})

describe('A lost link', () => {
  it('is replaced: the new one opens what was sent, the old one nothing', async () => {
    const old = await sent()
    const renewed = (await renewLink(await press(), office)).linkPath.slice('/q/'.length)
    expect(await readSentQuote(old)).toBeNull()
    expect((await readSentQuote(renewed))?.issue).toBe(1)
    await acceptQuote({
      token: renewed,
      name: 'Ines Marlow',
      note: '',
      choices: [{ lineId: (await quoteNow()).lines[0]?.id ?? 0, quantity: 6 }],
    })
    await expect(renewLink(await press(), office)).rejects.toMatchObject({ code: 'wrong-state' })
  })
})

describe('A yes by telephone', () => {
  it('accepts the lines it names and answers the link with it', async () => {
    const token = await sent()
    await logAcceptance(await yes('6'), office)
    const now = await quoteNow()
    expect([now.status, now.lines[0]?.acceptedQuantity, now.followUpOn]).toEqual(['accepted', 6, null])
    expect(now.issues[0]).toMatchObject({
      answer: 'accepted',
      answeredBy: `Ines Marlow, noted by ${office.name}`,
      answerNote: 'PO 1144',
    })
    await expect(declineQuote({ token, name: 'Ines Marlow', note: '' })).rejects.toMatchObject({
      code: 'already-done',
    })
  })

  it('after the customer’s own answer is refused', async () => {
    const token = await sent()
    const late = await yes('6')
    await declineQuote({ token, name: 'Ines Marlow', note: 'too dear' })
    await expect(logAcceptance(late, office)).rejects.toMatchObject({ code: 'changed-meanwhile' })
    expect((await quoteNow()).status).toBe('declined')
  })

  it('for fewer pieces than were offered, or for none, is refused and leaves nothing half done', async () => {
    await sent()
    await reviseQuote(await press(), office)
    await save({ steps: [{ quantity: '6', unitPrice: '179' }] })
    await sendQuote(await press(), office)
    await expect(logAcceptance(await yes('5'), office)).rejects.toMatchObject({ code: 'bad-input' })
    await expect(yes('')).rejects.toThrow('How many do they take?')
    expect(await quoteNow()).toMatchObject({ status: 'sent', lines: [{ acceptedQuantity: null }] })
  })

  it('that fails half-way leaves the quote open', async () => {
    await sent()
    const input = await yes('6')
    await refuseHistory()
    await expect(logAcceptance(input, office)).rejects.toThrow('history is refused')
    expect(await quoteNow()).toMatchObject({
      status: 'sent',
      issues: [{ answer: null }],
      lines: [{ acceptedQuantity: null }],
    })
  })
})

describe('A quote that is lost, taken back or to be followed up', () => {
  it('lost needs its reason and keeps it; its link takes no answer any more', async () => {
    const token = await sent()
    expect(lostForm.safeParse({ id: quoteId, version: 0, lostReason: ' ' }).success).toBe(false)
    await markQuoteLost({ ...(await press()), lostReason: 'bolted frame instead' }, office)
    expect(await quoteNow()).toMatchObject({
      status: 'declined',
      lostReason: 'bolted frame instead',
      followUpOn: null,
    })
    expect((await readSentQuote(token))?.state).toBe('withdrawn')
  })

  it('withdrawn is withdrawn once', async () => {
    const token = await sent()
    const at = await press()
    await withdrawQuote(at, office)
    await expect(withdrawQuote(at, office)).rejects.toMatchObject({ code: 'changed-meanwhile' })
    expect((await readSentQuote(token))?.state).toBe('withdrawn')
  })

  it('to follow up stands in its own list from that day on, a lapsed one in another', async () => {
    await sent()
    const today = dayInZone(new Date(), 'UTC')
    await setFollowUp({ ...(await press()), followUpOn: today }, office)
    const list = async (standing: 'follow' | 'lapsed' | 'open') =>
      (await readQuotes({ search: '', standing, page: 1, today })).rows.map(({ id }) => id)
    expect([await list('follow'), await list('lapsed')]).toEqual([[quoteId], []])
    await db.quote.update({
      where: { id: quoteId },
      data: { validUntil: new Date(today.getTime() - 86_400_000) },
    })
    expect([await list('follow'), await list('lapsed'), await list('open')]).toEqual([[], [quoteId], []])
  })
})

describe('An accepted line', () => {
  it('becomes one job, pressed twice and by two people at once', async () => {
    const token = await sent()
    const quoteLineId = (await quoteNow()).lines[0]?.id ?? 0
    await expect(openAcceptedLine({ quoteLineId, dueOn: new Date() }, office)).rejects.toMatchObject({
      code: 'wrong-state',
    })
    await acceptQuote({
      token,
      name: 'Ines Marlow',
      note: '',
      choices: [{ lineId: quoteLineId, quantity: 7 }],
    })
    const other = await actorWithRole('owner')
    const open = (actor: Actor) =>
      openAcceptedLine({ quoteLineId, dueOn: new Date(`${inDays(20)}T00:00:00Z`) }, actor)
    const pressed = await Promise.allSettled([open(office), open(other), open(office)])
    const numbers = pressed.flatMap((one) => (one.status === 'fulfilled' ? [one.value.number] : []))
    expect(new Set(numbers).size).toBe(1)
    expect(await db.job.count()).toBe(1)
    // By hand: 7 pieces fall in the step from 6 at 189.00 each: 1323.00.
    expect(await db.job.findFirst()).toMatchObject({ quoteLineId, quantity: 7, priceCents: 132_300 })
    expect(await db.piece.count()).toBe(7)
  })
})

describe('Every write of a quote', () => {
  it('that fails half-way leaves it as it was', async () => {
    await sent()
    const before = await quoteNow()
    const at = await press()
    await refuseHistory()
    const writes = [
      () => renewLink(at, office),
      () => withdrawQuote(at, office),
      () => reviseQuote(at, office),
      () => markQuoteLost({ ...at, lostReason: 'too dear' }, office),
      () => setFollowUp({ ...at, followUpOn: new Date() }, office),
      () => createQuote({ customerId, revisionIds: [revisionId] }, office),
    ]
    for (const write of writes) await expect(write()).rejects.toThrow('history is refused')
    expect(await quoteNow()).toEqual(before)
    expect(await db.quote.count()).toBe(1)
  })

  it('a draft’s that fails half-way leaves its lines and prices', async () => {
    await save()
    const before = await quoteNow()
    const at = await press()
    const parsed = await draft({ steps: [{ quantity: '3', unitPrice: '1' }] })
    await refuseHistory()
    if (!parsed.success) throw new Error('the form is whole')
    await expect(saveQuote(parsed.data, office)).rejects.toThrow('history is refused')
    await expect(addQuoteLine({ ...at, revisionId }, office)).rejects.toThrow('history is refused')
    await expect(sendQuote(at, office)).rejects.toThrow('history is refused')
    expect(await quoteNow()).toEqual(before)
  })

  it('is the desk’s, not the bench’s', () => {
    expect(['owner', 'office', 'bench'].map((role) => roleMay(role as 'owner', 'quote.write'))).toEqual([
      true,
      true,
      false,
    ])
    expect(roleMay('bench', 'quote.read')).toBe(false)
  })
})
