import { beforeAll, describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { removeDemo } from '@/lib/records/demo/write'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'
import { loadDemo } from '@/prisma/demo/load'
import { actorWithRole } from '../support/actor'
import { freshDatabase } from '../support/database'

describe('the demo shop', () => {
  let db: Awaited<ReturnType<typeof freshDatabase>>['db']
  let owner: Actor

  beforeAll(async () => {
    ;({ db } = await freshDatabase())
    await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
    await db.rateSheet.create({ data: { rates: asJson(defaultShopRates) } })
    owner = await actorWithRole('owner')
    await loadDemo(owner)
  })

  it('has a dozen customers, 25 parts, quotes in each state and jobs mid-way', async () => {
    expect(await db.customer.count()).toBe(12)
    expect(await db.part.count()).toBe(25)
    const states = await db.quote.groupBy({ by: ['status'] })
    expect(states.map(({ status }) => status).sort()).toEqual([
      'accepted',
      'declined',
      'draft',
      'sent',
      'withdrawn',
    ])
    const lapsed = await db.quote.count({ where: { status: 'sent', validUntil: { lt: new Date() } } })
    expect(lapsed).toBe(1)
    expect(await db.nonconformance.count({ where: { disposition: null } })).toBe(1)
    expect(await db.job.count({ where: { status: 'open' } })).toBeGreaterThanOrEqual(4)
  })

  it('has parts with estimates in versions, and quotes whose costs come from them', async () => {
    const versions = await db.estimate.groupBy({ by: ['revisionId'], _count: true })
    expect(versions.some(({ _count }) => _count === 2)).toBe(true)
    const steps = await db.quoteBreak.findMany({ where: { costCents: { not: null } } })
    expect(steps.length).toBeGreaterThanOrEqual(9)
    expect(steps.every(({ unitCents, costCents }) => unitCents > (costCents ?? 0))).toBe(true)
  })

  it('has bends that failed and were redone, and their nonconformances decided', async () => {
    expect(await db.bendRecord.count({ where: { verdict: 'fail' } })).toBeGreaterThan(0)
    expect(await db.bendRecord.count({ where: { tryNumber: 2, verdict: 'pass' } })).toBeGreaterThan(0)
    expect(await db.nonconformance.count({ where: { disposition: 'rework' } })).toBeGreaterThan(0)
  })

  it('has pieces cut from lots with heat numbers, offcuts back on the rack, and filler out and back', async () => {
    expect(await db.stockLot.count({ where: { heatNumber: { not: '' } } })).toBeGreaterThan(1)
    expect(await db.stockPiece.count({ where: { isOffcut: true, usedAt: null } })).toBeGreaterThan(0)
    expect(await db.piece.count({ where: { stockPieceId: { not: null } } })).toBeGreaterThan(5)
    for (const kind of ['poured', 'recovered'] as const) {
      expect(await db.fillerEntry.count({ where: { kind, jobId: { not: null } } })).toBeGreaterThan(0)
    }
  })

  it('has a closed job that was released and taught something, some of it accepted', async () => {
    const closed = await db.job.findFirstOrThrow({
      where: { status: 'closed' },
      select: { releases: { select: { id: true } }, pieces: { select: { status: true } }, lessons: true },
    })
    expect(closed.releases.length).toBe(1)
    expect(closed.pieces.every(({ status }) => status === 'released')).toBe(true)
    expect(new Set(closed.lessons.map(({ kind }) => kind))).toEqual(
      new Set(['springbackFactor', 'firstTry', 'operationMinutes']),
    )
    expect(closed.lessons.some(({ acceptedAt }) => acceptedAt !== null)).toBe(true)
    expect(closed.lessons.some(({ acceptedAt }) => acceptedAt === null)).toBe(true)
  })

  it('has asks in each state, an expired price, and a late order', async () => {
    const states = await db.ask.groupBy({ by: ['status'] })
    expect(states.map(({ status }) => status).sort()).toEqual(['declined', 'quoted', 'sent', 'silent'])
    expect(await db.ask.count({ where: { validUntil: { lt: new Date() } } })).toBe(1)
    expect(await db.source.count()).toBe(6)
  })

  it('is removed by one action, and leaves what the shop entered for itself', async () => {
    const own = await db.customer.create({ data: { name: 'A customer of our own' } })
    await removeDemo(owner)
    expect(await db.customer.findMany({ select: { id: true } })).toEqual([{ id: own.id }])
    for (const count of [
      db.part.count(),
      db.quote.count(),
      db.estimate.count(),
      db.job.count(),
      db.bendRecord.count(),
      db.press.count(),
      db.filler.count(),
      db.stockLot.count(),
      db.lesson.count(),
    ]) {
      expect(await count).toBe(0)
    }
    expect(await db.user.count()).toBe(1)
    expect(await db.auditEntry.count()).toBeGreaterThan(100)
  })
})
