import { beforeEach, describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { quotedForm, sendAsksForm } from '@/lib/records/ask/schema'
import { logQuote, sendAsks } from '@/lib/records/ask/write'
import { readDecisions, readWeighing } from '@/lib/records/decision/read'
import {
  changedSince,
  costMoves,
  markText,
  type Weighed,
  workingDaysBetween,
} from '@/lib/records/decision/rules'
import { type DecideTyped, decideForm } from '@/lib/records/decision/schema'
import { decide } from '@/lib/records/decision/write'
import { readEstimateGround } from '@/lib/records/estimate/read'
import { firstAsk } from '@/lib/records/estimate/rules'
import { wayBases } from '@/lib/records/way/rules'
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
let askId: number

beforeEach(async () => {
  await freshDatabase()
  office = await actorWithRole('office')
  await db.rateSheet.create({ data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' } })
  ;({ revisionId } = await bentPart())
  const source = await db.source.create({ data: { name: 'Merlin Frame & Arc' } })
  const sent = sendAsksForm.parse({
    revisionId,
    sourceIds: [source.id],
    quantities: '1/5/20',
    sentOn: '2026-11-02',
    chaseOn: '2026-11-09',
    notesText: '',
  })
  askId = (await sendAsks(sent, office)).ids[0] ?? 0
  await quote({
    prices: [
      ['1', '400'],
      ['5', '250'],
      ['20', '180'],
    ],
  })
})

async function quote({ prices }: { prices: [string, string][] }): Promise<void> {
  const { version } = await db.ask.findUniqueOrThrow({ where: { id: askId } })
  const answer = quotedForm(units).parse({
    id: askId,
    version,
    repliedOn: '2026-11-05',
    prices: prices.map(([quantity, unitCents]) => ({ quantity, unitCents })),
    toolingCents: '300',
    setUpCents: '0',
    minimumOrderCents: '500',
    freightCents: '60',
    suppliedCentsPerPiece: '0',
    leadTimeDays: '15',
    validUntil: '',
    offeredRadiusMm: '',
    conditionsText: '',
    expectedRejectPct: '0',
    replacesRejects: false,
  })
  await logQuote(answer, office)
}

const weighing = (pieceCount = 6) => readWeighing(revisionId, { pieceCount, dueOn: null })

async function typed(over: Partial<DecideTyped> = {}): Promise<DecideTyped> {
  const read = await weighing()
  return {
    revisionId: String(revisionId),
    pieceCount: '6',
    dueOn: '',
    chosen: `ask ${askId}`,
    whyText: 'The press is taken until the new year.',
    mark: read ? markText(read.marks) : '',
    ...over,
  }
}

describe('Weighing', () => {
  it('puts ways that can be done here and each answer on one scale, with what cannot be done beside it', async () => {
    const read = await weighing()
    const keys = read?.weighed.rows.map(({ key }) => key) ?? []
    expect(keys).toContain(`ask ${askId}`)
    expect(keys.some((key) => !key.startsWith('ask'))).toBe(true)
    for (const { way } of read?.weighed.cannot ?? []) expect(keys).not.toContain(way)
    const shares = read?.weighed.rows.map(({ cheapestChance }) => cheapestChance) ?? []
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9)
  })

  it('counts tooling, the price at its break and freight of an answer: by hand at least 300 + 6 · 250 + 60', async () => {
    const row = (await weighing())?.weighed.rows.find(({ key }) => key === `ask ${askId}`)
    // Ordering, receiving and what the shop does itself come on top, and only on top.
    expect(row?.costCents.p10).toBeGreaterThan((300 + 6 * 250 + 60) * 100)
  })

  it('says how likely each is in time where there is a due day', async () => {
    const read = await readWeighing(revisionId, { pieceCount: 6, dueOn: new Date('2099-01-01T00:00:00Z') })
    for (const row of read?.weighed.rows ?? []) expect(row.onTimeChance).toBe(1)
  })

  it('leaves welded corners out of the chance: they are another part than drawn', async () => {
    const read = await weighing()
    expect(read?.weighed.rows.some(({ way }) => way === 'mitredWelded')).toBe(true)
    expect(read?.weighed.bestInHouseKey).not.toBe('mitredWelded')
    const mitred = read?.weighed.rows.find(({ way }) => way === 'mitredWelded')
    expect(mitred?.cheapestChance).toBe(0)
    expect(mitred?.words).toEqual(['not the part as drawn'])
  })

  it('has the tube in every way cut from it once an estimate of one of them bought a bar', async () => {
    const without = (weighed: Weighed | undefined) =>
      weighed?.rows.filter(({ facts }) => facts.withoutTube).map(({ way }) => way)
    const before = await weighing()
    expect(without(before?.weighed)).toContain('mitredWelded')
    const ground = (await readEstimateGround(revisionId))?.ground
    const bases = ground ? wayBases(ground) : []
    const basis = bases.find(({ way, word }) => way !== 'mitredWelded' && word !== 'no')
    const ask = ground && basis && firstAsk(ground, [basis])
    expect(ask).toBeTruthy()
    const sheet = await db.rateSheet.findFirstOrThrow()
    await db.estimate.create({
      data: {
        revisionId,
        number: 1,
        way: basis?.way ?? '',
        quantities: [6],
        rateSheetId: sheet.id,
        overrides: [],
        inputs: asJson({ ask: { ...ask, buyable: [{ lengthMm: 6096, priceCents: 9200 }] }, ground, basis }),
        results: {},
      },
    })
    const after = await weighing()
    const sameTube = bases
      .filter(({ materialId }) => materialId === basis?.materialId)
      .map(({ way }) => way as string)
    expect(without(after?.weighed)?.filter((way) => sameTube.includes(way))).toEqual([])
    // A way in another temper has no priced bar yet: it would be the cheapest for what it lacks, and does not compete.
    const bare = without(after?.weighed) ?? []
    expect(bare.length).toBeGreaterThan(0)
    expect(bare).not.toContain(after?.weighed.bestInHouseKey)
    for (const way of bare) {
      expect(after?.weighed.rows.find((row) => row.way === way)).toMatchObject({
        cheapestChance: 0,
        words: ['no tube in its cost'],
      })
    }
    const cost = (weighed: Weighed | undefined) =>
      weighed?.rows.find(({ way }) => way === 'mitredWelded')?.costCents.mean ?? 0
    expect(cost(after?.weighed)).toBeGreaterThan(cost(before?.weighed))
  })
})

describe('Working days to a due day', () => {
  it.each([
    // By hand from a calendar: 25 November 2026 is a Wednesday.
    ['2026-11-25', '2026-11-26', 1],
    ['2026-11-25', '2026-11-30', 3],
    ['2026-11-27', '2026-11-29', 0],
    ['2026-11-25', '2026-11-20', 0],
  ])('from %s to %s are %i', (from, to, count) => {
    expect(workingDaysBetween(new Date(`${from}T00:00:00Z`), new Date(`${to}T00:00:00Z`))).toBe(count)
  })
})

describe('A decision', () => {
  it('keeps the whole comparison with what was chosen and why', async () => {
    const seen = await weighing()
    await decide(decideForm.parse(await typed()), office)
    const [made] = await readDecisions(revisionId)
    expect(made).toMatchObject({
      way: 'outside',
      askId,
      whyText: 'The press is taken until the new year.',
      chosenName: 'Merlin Frame & Arc',
    })
    expect(made?.weighed).toEqual(JSON.parse(JSON.stringify(seen?.weighed)))
  })

  it('asks to be looked at again when an outside price changes, and names it', async () => {
    await decide(decideForm.parse(await typed()), office)
    const [made] = await readDecisions(revisionId)
    const before = await weighing()
    expect(before && made && changedSince(made, before.marks, before.weighed)).toEqual([])
    await quote({
      prices: [
        ['1', '410'],
        ['5', '260'],
        ['20', '190'],
      ],
    })
    const after = await weighing()
    expect(after && made && changedSince(made, after.marks, after.weighed)).toEqual(['an outside answer'])
    const moves = made && after ? costMoves(made.weighed, after.weighed) : []
    expect(moves.map(({ name }) => name)).toEqual(['Merlin Frame & Arc'])
    expect((moves[0]?.afterCents ?? 0) - (moves[0]?.beforeCents ?? 0)).toBeGreaterThan(900)
    expect(made?.weighed.rows.find(({ key }) => key === `ask ${askId}`)?.costCents).toEqual(
      JSON.parse(JSON.stringify(before?.weighed.rows.find(({ key }) => key === `ask ${askId}`)?.costCents)),
    )
  })

  it('asks to be looked at again when the rates change', async () => {
    await decide(decideForm.parse(await typed()), office)
    const rates = { ...defaultShopRates, overheadFactor: defaultShopRates.overheadFactor + 0.2 }
    await db.rateSheet.create({ data: { rates: asJson(rates), reasonText: 'new rent' } })
    const now = await weighing()
    const [made] = await readDecisions(revisionId)
    expect(now && made && changedSince(made, now.marks, now.weighed)).toEqual(['the rates'])
  })

  it('is left alone by what the comparison is not made from: a pour, a note, another price of sand', async () => {
    await decide(decideForm.parse(await typed()), office)
    const [made] = await readDecisions(revisionId)
    const filler = await db.filler.findFirstOrThrow()
    await db.fillerEntry.create({
      data: { fillerId: filler.id, kind: 'lost', massKg: -0.5, noteText: 'dross' },
    })
    await db.partRevision.update({ where: { id: revisionId }, data: { notesText: 'Paint by others.' } })
    const dearerSand = { ...defaultShopRates, sandCentsPerLitre: 900, marginPpm: 100_000 }
    await db.rateSheet.create({ data: { rates: asJson(dearerSand), reasonText: 'sand is dear' } })
    const now = await weighing()
    const sandIsWeighed = now?.weighed.rows.some(({ way }) => way === 'sand')
    expect(sandIsWeighed).toBe(false)
    expect(now && made && changedSince(made, now.marks, now.weighed)).toEqual([])
  })

  it('kept before all of it was marked is held against the costs themselves', async () => {
    await decide(decideForm.parse(await typed()), office)
    const [made] = await readDecisions(revisionId)
    if (!made) throw new Error('The decision was not kept.')
    const older = { ...made, inputsHash: 'part:a setUp:b rates:c asks:d tools:e' }
    const now = await weighing()
    expect(now && changedSince(older, now.marks, now.weighed)).toEqual([])
    await quote({ prices: [['1', '410']] })
    const later = await weighing()
    expect(later && changedSince(older, later.marks, later.weighed)).toEqual(['what it is made from'])
  })

  it('over a comparison that changed meanwhile is refused and nothing is kept', async () => {
    const change = decideForm.parse(await typed())
    await quote({ prices: [['1', '410']] })
    await expect(decide(change, office)).rejects.toMatchObject({ code: 'changed-meanwhile' })
    expect(await db.decision.count()).toBe(0)
  })

  it('for a way that cannot be done is refused at its field', async () => {
    const cannot = (await weighing())?.weighed.cannot[0]?.way
    expect(cannot).toBeDefined()
    const change = decideForm.parse(await typed({ chosen: cannot ?? '' }))
    await expect(decide(change, office)).rejects.toMatchObject({ code: 'bad-input', field: 'chosen' })
  })

  it('that fails half-way leaves nothing', async () => {
    const change = decideForm.parse(await typed())
    await refuseHistory()
    await expect(decide(change, office)).rejects.toThrow()
    expect(await db.decision.count()).toBe(0)
  })

  it('needs a reason', async () => {
    const parsed = decideForm.safeParse(await typed({ whyText: ' ' }))
    expect(parsed.error?.issues[0]).toMatchObject({
      path: ['whyText'],
      message: 'Write why: the next person will ask',
    })
  })

  it('is for the owner and the office', () => {
    expect(['owner', 'office', 'bench'].map((role) => roleMay(role as 'owner', 'decision.write'))).toEqual([
      true,
      true,
      false,
    ])
  })
})
