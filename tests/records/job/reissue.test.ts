import { beforeEach, describe, expect, it } from 'vitest'
import type { JobPlan } from '@/lib/records/job/rules'
import { openJob, reissueTraveller } from '@/lib/records/job/write'
import { readPlanAgain } from '@/lib/records/job-plan/read'
import { markOperation, startOperation } from '@/lib/records/operation/write'
import { db } from '@/lib/server/db'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { bentPart, dueOn } from './bent-part'

beforeEach(async () => {
  await freshDatabase()
})

async function strappedJob() {
  const part = await bentPart()
  const actor = await actorWithRole('office')
  const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 2, dueOn, way: '' }, actor)
  return { part, actor, jobId }
}

const rows = (jobId: number) => db.jobOperation.findMany({ where: { jobId }, orderBy: { position: 'asc' } })
const keysOf = async (jobId: number) =>
  (await rows(jobId)).filter(({ leftOutAtIssue }) => leftOutAtIssue === null).map(({ key }) => key)

/** The office now bends this part hollow, with no strap. */
const bendHollow = (revisionId: number) =>
  db.setup.update({ where: { revisionId }, data: { support: 'hollow', strapId: null, fillerId: null } })

describe('A job planned again after its set-up holds the bore otherwise', () => {
  it('follows the set-up: no filling, no melting out, and the numbers of the new way', async () => {
    const { part, actor, jobId } = await strappedJob()
    expect(await keysOf(jobId)).toContain('fill')
    await bendHollow(part.revisionId)
    const again = await readPlanAgain(db, jobId)
    expect(again?.way).toBe('hollow')
    expect(again?.changes).toEqual(
      expect.arrayContaining([
        'way: Bent hollow, was Low-melt alloy and backing strap',
        'strap was ST-1, is none',
        'taken out: Fill with low-melt alloy',
      ]),
    )
    await reissueTraveller({ id: jobId, version: 0 }, actor)
    // the shop's order of work for a hollow bend: nothing is cleaned for a filling, filled or melted out
    expect(await keysOf(jobId)).toEqual([
      'readJob',
      'saw',
      'deburr',
      'mark',
      'setUpPress',
      'trial',
      'bend',
      'checkAngles',
      'trimEnds',
      'mitreEnds',
      'inspect',
      'pack',
    ])
    const job = await db.job.findUniqueOrThrow({ where: { id: jobId } })
    const plan = job.plan as unknown as JobPlan
    expect([job.way, plan.method, plan.setUp?.strap]).toEqual(['hollow', 'hollow', null])
    expect(plan.issue?.changes).toEqual(again?.changes)
  })

  it('keeps what somebody has worked on, and takes it up again when it is planned once more', async () => {
    const { part, actor, jobId } = await strappedJob()
    const [clean, fill] = await Promise.all(
      ['cleanBore', 'fill'].map((key) => db.jobOperation.findFirstOrThrow({ where: { jobId, key } })),
    )
    if (!clean || !fill) throw new Error('the job is not filled')
    const entry = { clientKey: 'a-clock-on-filling', pieceId: null, at: new Date() }
    await startOperation({ ...entry, operationId: fill.id }, actor)
    await markOperation({ id: clean.id, done: true }, actor)
    await bendHollow(part.revisionId)
    await reissueTraveller({ id: jobId, version: 0 }, actor)
    const left = (await rows(jobId)).filter(({ leftOutAtIssue }) => leftOutAtIssue !== null)
    expect(left.map(({ key, leftOutAtIssue }) => [key, leftOutAtIssue])).toEqual([
      ['cleanBore', 2],
      ['fill', 2],
    ])
    expect(await db.operationLog.count({ where: { operationId: fill.id } })).toBe(1)

    const setup = await db.strap.findFirstOrThrow()
    await db.setup.update({
      where: { revisionId: part.revisionId },
      data: { support: 'lowMelt', strapId: setup.id, fillerId: part.fillerId },
    })
    await reissueTraveller({ id: jobId, version: 1 }, actor)
    const taken = await db.jobOperation.findMany({ where: { jobId, key: 'fill' } })
    expect(taken.map(({ id, leftOutAtIssue }) => [id, leftOutAtIssue])).toEqual([[fill.id, null]])
  })

  it('leaves the minutes of work that has begun, which it is measured against', async () => {
    const { part, actor, jobId } = await strappedJob()
    const before = await db.jobOperation.findFirstOrThrow({ where: { jobId, key: 'bend' } })
    await db.jobOperation.update({ where: { id: before.id }, data: { plannedSetUpMinutes: 77 } })
    await markOperation({ id: before.id, done: true }, actor)
    await bendHollow(part.revisionId)
    await reissueTraveller({ id: jobId, version: 0 }, actor)
    const after = await db.jobOperation.findUniqueOrThrow({ where: { id: before.id } })
    expect([after.plannedSetUpMinutes, after.doneAt]).toEqual([77, expect.any(Date)])
  })

  it('stays as it was, operations too, when the new issue fails half-way', async () => {
    const { part, actor, jobId } = await strappedJob()
    await bendHollow(part.revisionId)
    const before = await rows(jobId)
    await refuseHistory()
    await expect(reissueTraveller({ id: jobId, version: 0 }, actor)).rejects.toThrow()
    expect(await rows(jobId)).toEqual(before)
    expect((await db.job.findUniqueOrThrow({ where: { id: jobId } })).way).toBe('lowMeltStrap')
  })
})

describe('The way of a job planned again', () => {
  it('is the one that a later decision names, and the one asked for over it', async () => {
    const { part, jobId } = await strappedJob()
    await db.decision.create({
      data: {
        revisionId: part.revisionId,
        way: 'mitredWelded',
        whyText: 'The customer takes corners',
        quantity: 2,
        comparison: {},
        inputsHash: 'of then',
      },
    })
    expect((await readPlanAgain(db, jobId))?.way).toBe('mitredWelded')
    expect((await readPlanAgain(db, jobId, 'outside'))?.way).toBe('outside')
  })
})

describe('A mitred job opened by hand', () => {
  it('saws straights over the long points: by hand for two corners of a 38.1 mm tube', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    const { jobId } = await openJob(
      { revisionId: part.revisionId, quantity: 1, dueOn, way: 'mitredWelded' },
      actor,
    )
    const job = await db.job.findUniqueOrThrow({ where: { id: jobId } })
    const plan = job.plan as unknown as JobPlan
    // R tan(a/2): 300 tan 16° = 86.02, 300 tan 10° = 52.90; half the height times the same tangents: 5.46 and 3.36.
    // 400 + 86.02 + 5.46 = 491.49; 700 + 86.02 + 52.90 + 5.46 + 3.36 = 847.74; 400 + 52.90 + 3.36 = 456.26
    const expected = [491.49, 847.74, 456.26]
    expect(plan.mitred?.longLengthsMm.map((mm) => mm.toFixed(2))).toEqual(expected.map((mm) => mm.toFixed(2)))
    expect(plan.mitred?.sawAnglesDeg).toEqual([16, 10])
    // and a saw kerf of 2 mm at each of the two corners
    expect(plan.mitred?.cutLengthMm).toBeCloseTo(491.49 + 847.74 + 456.26 + 4, 1)
    const saw = await db.jobOperation.findFirstOrThrow({ where: { jobId, key: 'sawMitres' } })
    expect(saw.setPoints).toHaveLength(5)
  })
})

describe('A saw length', () => {
  it('reaches out for a slanted end: half of 38.1 mm at 45° less half the trim, where no grip covers it', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, actor)
    const plan = (await db.job.findUniqueOrThrow({ where: { id: jobId } })).plan as unknown as JobPlan
    expect(plan.spec?.gripEndMm).toBe(0)
    // 19.05 tan 45° - 3 / 2
    expect(plan.spec?.cutReachMm).toBeCloseTo(17.55, 6)
  })
})
