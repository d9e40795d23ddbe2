import { beforeEach, describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { groundMark, readEstimate, readEstimateGround } from '@/lib/records/estimate/read'
import { estimateForm } from '@/lib/records/estimate/schema'
import { saveEstimate } from '@/lib/records/estimate/write'
import type { JobPlan } from '@/lib/records/job/rules'
import { openJob, openJobFromLine, reissueTraveller } from '@/lib/records/job/write'
import { db } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { bentPart, dueOn, lotOf, quoteLine } from './bent-part'

beforeEach(async () => {
  await freshDatabase()
})

describe('A job from an accepted line', () => {
  it('is opened once when two people accept at the same moment', async () => {
    const part = await bentPart()
    const quoteLineId = await quoteLine(part)
    const accept = () =>
      db.$transaction((tx) => openJobFromLine(tx, { quoteLineId, quantity: 6, dueOn }, 'customer link'))
    const [one, other] = await Promise.all([accept(), accept()])
    expect(one).toEqual(other)
    expect(await db.job.count()).toBe(1)
    expect(await db.piece.count()).toBe(6)
  })

  it('takes the price of the largest break it reaches: six at 250.00 make 1500.00', async () => {
    const quoteLineId = await quoteLine(await bentPart())
    await db.$transaction((tx) => openJobFromLine(tx, { quoteLineId, quantity: 6, dueOn }, 'customer link'))
    expect(await db.job.findFirst({ select: { priceCents: true } })).toEqual({ priceCents: 150_000 })
  })

  it('leaves nothing behind when the transaction it belongs to fails half-way', async () => {
    const part = await bentPart()
    const quoteLineId = await quoteLine(part)
    const attempt = db.$transaction(async (tx) => {
      await openJobFromLine(tx, { quoteLineId, quantity: 6, dueOn }, 'customer link')
      throw new Error('the line went dead')
    })
    await expect(attempt).rejects.toThrow('the line went dead')
    expect(await db.job.count()).toBe(0)
    expect(await db.piece.count()).toBe(0)
    const revision = await db.partRevision.findUniqueOrThrow({ where: { id: part.revisionId } })
    expect(revision.frozenAt).toBeNull()
    const accepted = await db.$transaction((tx) =>
      openJobFromLine(tx, { quoteLineId, quantity: 6, dueOn }, 'customer link'),
    )
    expect(accepted.number).toBe('J-0001')
  })

  it('refuses a line that is not there', async () => {
    await bentPart()
    const attempt = db.$transaction((tx) =>
      openJobFromLine(tx, { quoteLineId: 404, quantity: 1, dueOn }, 'customer link'),
    )
    await expect(attempt).rejects.toMatchObject({ code: 'not-found' })
  })
})

describe('The planned minutes of a job', () => {
  it('are those of the estimate that was quoted, though the shop has other rates since', async () => {
    const part = await bentPart()
    const office = await actorWithRole('office')
    await db.rateSheet.create({ data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' } })
    const read = await readEstimateGround(part.revisionId)
    if (!read) throw new Error('there is no ground')
    const typed = {
      revisionId: part.revisionId,
      mark: groundMark(read.ground),
      way: 'lowMeltStrap',
      quantities: '1, 6',
      yieldPct: '85',
      yieldReason: '',
      holeCount: '2',
      weldedEndCount: '1',
      dyePenetrant: true,
      buyable: [{ lengthMm: '6000', priceCents: '140' }],
      tools: [],
      overrides: [],
      rateOverrides: [],
      pricingBy: 'margin',
      pricingPct: '30',
    }
    const estimate = await saveEstimate(
      estimateForm({ lengthUnit: 'mm', currency: 'USD' }).parse(typed),
      office,
    )
    const quoteLineId = await quoteLine(part)
    await db.quoteLine.update({ where: { id: quoteLineId }, data: { estimateId: estimate.id } })
    const slower = { low: 60, likely: 90, high: 120 }
    const times = { ...defaultShopRates.times, readJobMinutes: slower, inspectPerPieceMinutes: slower }
    const rates = asJson({ ...defaultShopRates, times })
    await db.rateSheet.create({ data: { rates, reasonText: 'slower since' } })
    await db.$transaction((tx) => openJobFromLine(tx, { quoteLineId, quantity: 6, dueOn }, 'customer link'))

    const kept = await readEstimate(estimate.id)
    const quoted = kept?.results.quantities[0]?.estimate.operations ?? []
    expect(quoted.length).toBeGreaterThan(5)
    const planned = await db.jobOperation.findMany({ orderBy: { position: 'asc' } })
    expect(planned.map(({ key }) => key)).toContain('fitWeld')
    expect(planned.map((row) => [row.key, row.plannedSetUpMinutes, row.plannedRunMinutesPerPiece])).toEqual(
      quoted.map(({ key, setUpMinutes, runMinutesPerPiece }) => [
        key,
        setUpMinutes.likely,
        runMinutesPerPiece.likely,
      ]),
    )
  })

  it('without an estimate look at what an estimate looks at: 11 features of a part with two bends', async () => {
    const part = await bentPart()
    await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, await actorWithRole('office'))
    const inspect = await db.jobOperation.findFirstOrThrow({ where: { key: 'inspect' } })
    const { inspectPerPieceMinutes, inspectPerFeatureMinutes } = defaultShopRates.times
    // By hand: angle, radius and plane of two bends (6), three straights (3) and two ends (2): 11 to look at.
    expect(inspect.plannedRunMinutesPerPiece).toBeCloseTo(
      inspectPerPieceMinutes.likely + 11 * inspectPerFeatureMinutes.likely,
      9,
    )
  })
})

describe('A job opened by hand', () => {
  it('freezes the revision, so that its tube can no longer be changed', async () => {
    const part = await bentPart()
    await openJob({ revisionId: part.revisionId, quantity: 2, dueOn, way: '' }, await actorWithRole('office'))
    const change = db.partRevision.update({ where: { id: part.revisionId }, data: { wallMm: 2 } })
    await expect(change).rejects.toThrow()
    const kept = await db.partRevision.findUniqueOrThrow({ where: { id: part.revisionId } })
    expect(kept.wallMm).toBe(3.175)
    expect(kept.frozenAt).not.toBeNull()
  })

  it('keeps the spec, the set-up by its shop numbers and one operation for each step of the way', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 2, dueOn, way: '' }, actor)
    const job = await db.job.findUniqueOrThrow({
      where: { id: jobId },
      select: { way: true, plan: true, operations: { select: { key: true }, orderBy: { position: 'asc' } } },
    })
    const plan = job.plan as unknown as JobPlan
    expect(job.way).toBe('lowMeltStrap')
    expect(plan.refusal).toBe('')
    expect(plan.spec?.bends.map(({ wantedAngleDeg }) => wantedAngleDeg)).toEqual([32, 20])
    expect(plan.setUp?.press.shopNumber).toBe('PR-1')
    expect(plan.setUp?.strap?.shopNumber).toBe('ST-1')
    const keys = job.operations.map(({ key }) => key)
    // the shop's order of work: fill before bending, melt out after, ends cut last
    expect(keys.indexOf('fill')).toBeLessThan(keys.indexOf('bend'))
    expect(keys.indexOf('bend')).toBeLessThan(keys.indexOf('meltOut'))
    expect(keys.indexOf('meltOut')).toBeLessThan(keys.indexOf('mitreEnds'))
  })

  it('gives every piece a code of its own with at least 128 random bits', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    await openJob({ revisionId: part.revisionId, quantity: 5, dueOn, way: '' }, actor)
    const codes = (await db.piece.findMany({ select: { scanCode: true } })).map(({ scanCode }) => scanCode)
    expect(new Set(codes).size).toBe(5)
    for (const code of codes) {
      expect(code).toMatch(/^[A-Za-z0-9_-]+$/)
      expect(Buffer.from(code, 'base64url').length * 8).toBeGreaterThanOrEqual(128)
    }
  })

  it('is opened without a set-up too, and says that there are no set-points', async () => {
    const part = await bentPart({ withSetup: false })
    const actor = await actorWithRole('office')
    await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, actor)
    const job = await db.job.findFirstOrThrow({ select: { plan: true } })
    expect((job.plan as unknown as JobPlan).spec).toBeNull()
    expect((job.plan as unknown as JobPlan).refusal).toMatch(/No set-up/)
  })

  it('draws a number of its own when ten are opened at once', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    const opened = await Promise.all(
      Array.from({ length: 10 }, () =>
        openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, actor),
      ),
    )
    expect(new Set(opened.map(({ number }) => number)).size).toBe(10)
  })
})

describe('A traveller made again', () => {
  it('counts its issue up and plans with the certificate of the one lot reserved', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, actor)
    const [stockPieceId] = await lotOf([6000])
    await db.stockLot.updateMany({ data: { certificateYieldMPa: 290, certificateTensileMPa: 325 } })
    await db.stockPiece.update({ where: { id: stockPieceId ?? 0 }, data: { reservedForJobId: jobId } })
    expect(await reissueTraveller({ id: jobId, version: 0 }, actor)).toEqual({ travellerIssue: 2 })
    const job = await db.job.findUniqueOrThrow({ where: { id: jobId }, select: { plan: true } })
    const plan = job.plan as unknown as JobPlan
    expect(plan.input?.material.yieldMPa).toBe(290)
    expect(plan.certificateText).toMatch(/88121/)
  })

  it('is refused over a newer save', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, actor)
    await reissueTraveller({ id: jobId, version: 0 }, actor)
    await expect(reissueTraveller({ id: jobId, version: 0 }, actor)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    })
  })
})
