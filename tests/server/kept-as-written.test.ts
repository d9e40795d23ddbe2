import { beforeAll, describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { logTry } from '@/lib/records/bend-record/write'
import { db } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import { benchPiece } from '@/tests/records/bend-record/bench-piece'
import { bentPart } from '@/tests/records/job/bent-part'
import { freshDatabase } from '@/tests/support/database'

beforeAll(async () => {
  await freshDatabase()
  const { revisionId } = await bentPart()
  const { id: rateSheetId } = await db.rateSheet.create({
    data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' },
  })
  await db.estimate.create({
    data: {
      revisionId,
      number: 1,
      way: 'lowMelt',
      quantities: [6],
      rateSheetId,
      overrides: [],
      inputs: {},
      results: {},
    },
  })
  await db.decision.create({
    data: {
      revisionId,
      quantity: 6,
      way: 'lowMelt',
      whyText: 'Pot and press are here.',
      comparison: {},
      inputsHash: '',
    },
  })
})

it.each([
  `update "Estimate" set way = 'hollow'`,
  'delete from "Estimate"',
  `update "Decision" set "whyText" = 'Another reason.'`,
  'delete from "Decision"',
])('refuses: %s', async (statement) => {
  await expect(db.$executeRawUnsafe(statement)).rejects.toThrow(/is kept as it was written/)
  expect(await db.estimate.findFirst({ select: { way: true } })).toEqual({ way: 'lowMelt' })
  expect(await db.decision.findFirst({ select: { whyText: true } })).toEqual({
    whyText: 'Pot and press are here.',
  })
})

it('lets both go while the demo shop is removed, and only then', async () => {
  await db.$transaction(async (tx) => {
    await tx.$executeRaw`set local bendwright.removing_demo = 'on'`
    expect(await tx.$executeRaw`delete from "Decision"`).toBe(1)
    expect(await tx.$executeRaw`delete from "Estimate"`).toBe(1)
  })
  expect(await db.estimate.count()).toBe(0)
})

describe('what left the shop or is counted on', () => {
  let issueId: number

  beforeAll(async () => {
    await freshDatabase()
    const { jobId, piece, office, bench, tryAt } = await benchPiece()
    // 32 degrees wanted, plus or minus 1: judged as soon as it is read.
    await logTry(tryAt('a-try-that-is-judged', { loadedAngleDeg: 37, angleFinalDeg: 32 }), bench)
    const [userId, pieceId] = [office.userId, piece.id]
    await db.rateSheet.create({ data: { rates: asJson(defaultShopRates) } })
    await db.release.create({
      data: {
        number: 'R-0001',
        jobId,
        byId: userId,
        statementText: 'Six pieces, all bends measured.',
        snapshot: {},
        pieces: { create: { pieceId } },
      },
    })
    const { id: fillerId } = await db.filler.findFirstOrThrow({ select: { id: true } })
    await db.fillerEntry.create({ data: { fillerId, kind: 'bought', massKg: 5, byId: userId } })
    const { id: customerId } = await db.customer.findFirstOrThrow({ select: { id: true } })
    const sent = { tokenHash: 'h', snapshot: { number: 'Q-0001' }, expiresAt: new Date('2027-01-01') }
    const quote = await db.quote.create({
      data: {
        number: 'Q-0001',
        customerId,
        currency: 'USD',
        taxName: 'Sales tax',
        taxPpm: 0,
        validUntil: new Date('2027-01-01'),
        issues: { create: { issue: 1, ...sent } },
      },
      select: { issues: { select: { id: true } } },
    })
    issueId = quote.issues[0]?.id ?? 0
  })

  it.each([
    [`update "Release" set "statementText" = 'All good.'`, /is kept as it was written/],
    ['delete from "Release"', /is kept as it was written/],
    ['delete from "ReleasePiece"', /is kept as it was written/],
    ['update "FillerEntry" set "massKg" = 4', /is kept as it was written/],
    ['delete from "FillerEntry"', /is kept as it was written/],
    [`update "RateSheet" set rates = '{}'`, /is kept as it was written/],
    ['delete from "RateSheet"', /is kept as it was written/],
    [`update "QuoteIssue" set snapshot = '{}'`, /never changed/],
    ['update "QuoteIssue" set issue = 2', /never changed/],
    ['delete from "QuoteIssue"', /that was sent is kept/],
    ['delete from "Quote"', /that was sent is kept/],
    [`update "BendRecord" set "angleFinalDeg" = 32.5`, /judged try at a bend is never changed/],
    ['delete from "BendRecord"', /kept for ever/],
  ])('refuses: %s', async (statement, why) => {
    await expect(db.$executeRawUnsafe(statement)).rejects.toThrow(why)
  })

  it('a try is written over only while it waits to be judged', async () => {
    expect(await db.bendRecord.findMany({ select: { verdict: true } })).toEqual([{ verdict: 'pass' }])
  })

  it('a link is read, made anew, withdrawn and answered, and answered once', async () => {
    const change = (data: object) => db.quoteIssue.update({ where: { id: issueId }, data })
    await change({ firstReadAt: new Date(), tokenHash: 'another' })
    await change({ answer: 'declined', answeredAt: new Date(), answeredBy: 'Ines Marlow' })
    await expect(change({ answer: 'accepted' })).rejects.toThrow(/answered once/)
    await expect(change({ answer: null })).rejects.toThrow(/answered once/)
    await expect(change({ answeredBy: 'Somebody else' })).rejects.toThrow(/answered once/)
    await change({ withdrawnAt: new Date() })
  })
})
