import { beforeEach, describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { groundMark, readEstimate, readEstimateAges, readEstimateGround } from '@/lib/records/estimate/read'
import { type EstimateTyped, estimateForm, quoteEstimateForm } from '@/lib/records/estimate/schema'
import { quoteEstimate, saveEstimate } from '@/lib/records/estimate/write'
import { createQuote } from '@/lib/records/quote/write'
import { changeRates } from '@/lib/records/rates/write'
import { db } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import { roleMay } from '@/lib/server/permissions'
import type { Actor } from '@/lib/server/session'
import { bentPart } from '@/tests/records/job/bent-part'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'

const units = { lengthUnit: 'mm', currency: 'USD' } as const
let office: Actor
let revisionId: number
let customerId: number

beforeEach(async () => {
  await freshDatabase()
  office = await actorWithRole('office')
  await db.rateSheet.create({ data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' } })
  ;({ revisionId, customerId } = await bentPart())
})

async function mark(): Promise<string> {
  const read = await readEstimateGround(revisionId)
  return read ? groundMark(read.ground) : ''
}

async function typed(over: Partial<EstimateTyped> = {}) {
  const plain: EstimateTyped = {
    revisionId,
    mark: await mark(),
    way: 'lowMeltStrap',
    quantities: '1, 6, 20',
    yieldPct: '85',
    yieldReason: '',
    holeCount: '0',
    weldedEndCount: '0',
    dyePenetrant: false,
    buyable: [{ lengthMm: '6000', priceCents: '140' }],
    tools: [],
    overrides: [],
    rateOverrides: [],
    pricingBy: 'margin',
    pricingPct: '30',
    ...over,
  }
  return estimateForm(units).parse(plain)
}

const take = (estimateId: number, over: { quoteId?: string; pricingBy?: string; pricingPct?: string } = {}) =>
  quoteEstimate(
    quoteEstimateForm.parse({ estimateId, quoteId: '', pricingBy: 'margin', pricingPct: '30', ...over }),
    office,
  )

describe('An estimate', () => {
  it('is numbered within its revision and keeps all it was made from', async () => {
    const first = await saveEstimate(await typed(), office)
    const second = await saveEstimate(await typed({ quantities: '6' }), office)
    expect([first.number, second.number]).toEqual([1, 2])
    const kept = await readEstimate(first.id)
    expect(kept?.inputs.ground.rates).toEqual(defaultShopRates)
    expect(kept?.results.quantities.map(({ pieceCount }) => pieceCount)).toEqual([1, 6, 20])
    expect(kept?.inputs.ground.revision.bends).toHaveLength(2)
    expect(kept?.createdBy?.name).toBe(office.name)
  })

  it('by two at once gets two numbers', async () => {
    const change = await typed({ quantities: '2' })
    const both = await Promise.all([saveEstimate(change, office), saveEstimate(change, office)])
    expect(both.map(({ number }) => number).sort()).toEqual([1, 2])
  })

  it('costs a piece less as the order grows, the set-up shared', async () => {
    const { id } = await saveEstimate(await typed(), office)
    const each = (await readEstimate(id))?.results.quantities.map(({ priced }) => priced.unitCostCents) ?? []
    expect(each).toEqual([...each].sort((one, other) => other - one))
    expect(new Set(each).size).toBe(3)
  })

  it('takes a time set by hand at the rate of its work centre: 40 likely minutes of set-up become 10', async () => {
    const plain = await saveEstimate(await typed({ quantities: '1' }), office)
    const overrides = [
      {
        operationKey: 'setUpPress' as const,
        field: 'setUpMinutes' as const,
        low: '',
        likely: '10',
        high: '',
        reason: 'the die stays on',
      },
    ]
    const changed = await saveEstimate(await typed({ quantities: '1', overrides }), office)
    const lineOf = async (id: number) =>
      (await readEstimate(id))?.results.quantities[0]?.estimate.lines.find(
        ({ key }) => key === 'setUpPress:setUp',
      )?.likelyCents
    // By hand: press 75.00 an hour, 15 percent allowance; 40 and 8 min with the strap, then 10 min.
    expect(await lineOf(plain.id)).toBe(6900)
    expect(await lineOf(changed.id)).toBe(1438)
    const operation = (await readEstimate(changed.id))?.results.quantities[0]?.estimate.operations.find(
      ({ key }) => key === 'setUpPress',
    )
    expect(operation?.overridden).toMatchObject([{ reason: 'the die stays on', original: { likely: 48 } }])
  })

  it('without a reason for a time set by hand is refused at the reason', async () => {
    const overrides = [
      {
        operationKey: 'saw' as const,
        field: 'setUpMinutes' as const,
        low: '',
        likely: '5',
        high: '',
        reason: ' ',
      },
    ]
    await expect(typed({ overrides })).rejects.toThrow('Say why')
  })

  it('takes a rate set for it alone, keeps it with its reason, and is priced as before once it is undone', async () => {
    const plain = await saveEstimate(await typed({ quantities: '1' }), office)
    const rateOverrides = [
      { path: 'labourCentsPerH.press', low: '', likely: '150', high: '', reason: 'over the weekend' },
    ]
    const set = await saveEstimate(await typed({ quantities: '1', rateOverrides }), office)
    const undone = await saveEstimate(await typed({ quantities: '1', rateOverrides: [] }), office)
    const kept = await Promise.all([plain, set, undone].map(({ id }) => readEstimate(id)))
    const press = kept.map(
      (one) =>
        one?.results.quantities[0]?.estimate.lines.find(({ key }) => key === 'setUpPress:setUp')?.likelyCents,
    )
    // By hand: 48 min with 15 percent allowance at 75.00 an hour is 69.00; at 150.00 twice that.
    expect(press).toEqual([6900, 13_800, 6900])
    expect(kept[1]?.inputs.ask.rateOverrides).toEqual([
      { path: 'labourCentsPerH.press', value: 15_000, reason: 'over the weekend' },
    ])
    expect(kept[1]?.inputs.ground.rates).toEqual(defaultShopRates)
    expect(kept[2]?.results).toEqual(kept[0]?.results)
    expect((await db.rateSheet.findFirstOrThrow({ orderBy: { id: 'desc' } })).rates).toEqual(defaultShopRates)
  })

  it('rounds its prices by the step that was set for it', async () => {
    const rateOverrides = [
      { path: 'priceRounding.stepCents', low: '', likely: '25', high: '', reason: 'large order' },
    ]
    const { id } = await saveEstimate(await typed({ quantities: '6', rateOverrides }), office)
    const { quoteId } = await take(id)
    const [step] = await db.quoteBreak.findMany({ where: { line: { quoteId } } })
    expect((step?.unitCents ?? 1) % 2500).toBe(0)
  })

  it('with another yield than the shop’s needs a reason; with the shop’s own none is kept', async () => {
    await expect(saveEstimate(await typed({ yieldPct: '70' }), office)).rejects.toMatchObject({
      code: 'bad-input',
      field: 'yieldReason',
    })
    expect(await db.estimate.count()).toBe(0)
    const set = await saveEstimate(await typed({ yieldPct: '70', yieldReason: 'a new hand' }), office)
    const own = await saveEstimate(await typed({ yieldReason: 'left over' }), office)
    expect((await readEstimate(set.id))?.inputs.ask).toMatchObject({
      yieldFraction: 0.7,
      yieldReason: 'a new hand',
    })
    expect((await readEstimate(own.id))?.inputs.ask.yieldReason).toBe('')
  })

  it('is refused when the rates changed since it was seen, and nothing is kept', async () => {
    const seen = await typed()
    const { id: baseId } = await db.rateSheet.findFirstOrThrow()
    const dearer = { ...defaultShopRates, overheadFactor: 0.5 }
    await changeRates({ baseId, reasonText: 'the rent went up', rates: dearer }, office)
    await expect(saveEstimate(seen, office)).rejects.toMatchObject({ code: 'changed-meanwhile' })
    expect(await db.estimate.count()).toBe(0)
  })

  it('is refused where the tube does not do for it', async () => {
    const short = await typed({ buyable: [{ lengthMm: '900', priceCents: '30' }] })
    await expect(saveEstimate(short, office)).rejects.toMatchObject({ code: 'not-enough', field: 'buyable' })
  })

  it('stays as it was made when the shop changes, and says what changed', async () => {
    const { id } = await saveEstimate(await typed(), office)
    const before = await readEstimate(id)
    const { id: baseId } = await db.rateSheet.findFirstOrThrow()
    const dearer = { ...defaultShopRates, overheadFactor: 0.5 }
    await changeRates({ baseId, reasonText: 'the rent went up', rates: dearer }, office)
    await db.partRevision.update({ where: { id: revisionId }, data: { straightAfterMm: 450 } })
    expect((await readEstimate(id))?.results).toEqual(before?.results)
    expect((await readEstimateAges([id])).get(id)?.age).toEqual({ part: true, setup: false, rates: true })
  })

  it('that fails half-way leaves nothing', async () => {
    const change = await typed()
    await refuseHistory()
    await expect(saveEstimate(change, office)).rejects.toThrow('history is refused')
    expect(await db.estimate.count()).toBe(0)
  })

  it('is the desk’s, not the bench’s', () => {
    expect(roleMay('office', 'estimate.write')).toBe(true)
    expect(roleMay('bench', 'estimate.write')).toBe(false)
    expect(roleMay('bench', 'estimate.read')).toBe(false)
  })
})

describe('Taking an estimate into a quote', () => {
  it('makes a break of each quantity: price = cost / (1 - 0.3), up to the next whole unit', async () => {
    const { id } = await saveEstimate(await typed(), office)
    const { quoteId } = await take(id)
    const line = await db.quoteLine.findFirstOrThrow({
      where: { quoteId },
      include: { breaks: { orderBy: { quantity: 'asc' } }, quote: true },
    })
    expect(line.estimateId).toBe(id)
    expect(line.quote.customerId).toBe(customerId)
    expect(line.leadTimeDays).toBeGreaterThan(3)
    expect(line.breaks.map(({ quantity }) => quantity)).toEqual([1, 6, 20])
    for (const { costCents, unitCents } of line.breaks) {
      expect(unitCents % 100).toBe(0)
      expect(unitCents - (costCents ?? 0) / 0.7).toBeGreaterThanOrEqual(-0.5)
      expect(unitCents - (costCents ?? 0) / 0.7).toBeLessThan(100.5)
    }
  })

  it('prices a draft’s line of the same revision anew, and adds no second one', async () => {
    const { id } = await saveEstimate(await typed({ quantities: '6' }), office)
    const { quoteId } = await take(id)
    const before = await db.quoteBreak.findFirstOrThrow()
    const newer = await saveEstimate(await typed({ quantities: '6' }), office)
    await take(newer.id, { quoteId: String(quoteId), pricingBy: 'markup', pricingPct: '100' })
    expect(await db.quoteLine.count()).toBe(1)
    const after = await db.quoteBreak.findFirstOrThrow({ include: { line: true } })
    expect(after.line.estimateId).toBe(newer.id)
    expect(after.unitCents).toBeGreaterThan(before.unitCents)
    expect(after.unitCents).toBeGreaterThanOrEqual(2 * (after.costCents ?? 0))
  })

  it('is what a new quote of the part begins with: the newest version, priced as it says', async () => {
    await saveEstimate(await typed({ quantities: '6' }), office)
    const newest = await saveEstimate(
      await typed({ quantities: '6, 12', pricingBy: 'markup', pricingPct: '100' }),
      office,
    )
    const { id: quoteId } = await createQuote({ customerId, revisionIds: [revisionId] }, office)
    const line = await db.quoteLine.findFirstOrThrow({
      where: { quoteId },
      include: { breaks: { orderBy: { quantity: 'asc' } } },
    })
    expect([line.estimateId, line.breaks.map(({ quantity }) => quantity)]).toEqual([newest.id, [6, 12]])
    for (const { costCents, unitCents } of line.breaks) {
      // A markup of 100 percent is twice the cost, up to the next whole unit.
      expect(unitCents).toBe(Math.ceil((2 * (costCents ?? 0)) / 100) * 100)
    }
  })

  it('is refused for a quote that is no draft any more, and for another customer’s', async () => {
    const { id } = await saveEstimate(await typed({ quantities: '6' }), office)
    const { quoteId } = await take(id)
    await db.quote.update({ where: { id: quoteId }, data: { status: 'sent' } })
    await expect(take(id, { quoteId: String(quoteId) })).rejects.toMatchObject({ code: 'wrong-state' })
    const other = await db.customer.create({ data: { name: 'Gannet Workboats' } })
    await db.quote.update({ where: { id: quoteId }, data: { status: 'draft', customerId: other.id } })
    await expect(take(id, { quoteId: String(quoteId) })).rejects.toMatchObject({ code: 'wrong-state' })
  })

  it('refuses a margin of the whole price, which no price can give', () => {
    const parsed = quoteEstimateForm.safeParse({
      estimateId: 1,
      quoteId: '',
      pricingBy: 'margin',
      pricingPct: '100',
    })
    expect(parsed.success).toBe(false)
  })

  it('that fails half-way leaves no quote behind', async () => {
    const { id } = await saveEstimate(await typed({ quantities: '6' }), office)
    await refuseHistory()
    await expect(take(id)).rejects.toThrow('history is refused')
    expect([await db.quote.count(), await db.quoteLine.count(), await db.quoteBreak.count()]).toEqual([
      0, 0, 0,
    ])
  })
})
