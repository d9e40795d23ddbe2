import { beforeEach, describe, expect, it } from 'vitest'
import { travellerOfJob } from '@/app/_paper/job-traveller'
import { openJob, reissueTraveller } from '@/lib/records/job/write'
import { readJobPapers, readTravellerStanding } from '@/lib/records/traveller/read'
import { db } from '@/lib/server/db'
import { roleMay } from '@/lib/server/permissions'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { bentPart, dueOn } from '../job/bent-part'

beforeEach(async () => {
  await freshDatabase()
})

async function oneJob() {
  const part = await bentPart()
  const actor = await actorWithRole('office')
  const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 2, dueOn, way: '' }, actor)
  return { part, actor, jobId }
}

const withDie = async (revisionId: number) => {
  const die = await db.die.create({ data: { shopNumber: 'D-9', surfaceRadiusMm: 270 } })
  await db.setup.update({ where: { revisionId }, data: { dieId: die.id } })
}

async function paperOf(jobId: number) {
  const [job, standing, shop] = await Promise.all([
    readJobPapers(jobId),
    readTravellerStanding(jobId),
    db.shop.findUniqueOrThrow({ where: { id: 1 } }),
  ])
  if (!job || !standing) throw new Error('the job is gone')
  return travellerOfJob(job, standing, {
    shop,
    origin: 'https://shop.test',
    by: 'Mara',
    atIso: '2026-11-25T15:00:00Z',
  })
}

describe('A traveller', () => {
  it('holds while nothing it was made from has changed', async () => {
    const { jobId } = await oneJob()
    expect((await readTravellerStanding(jobId))?.changes).toEqual([])
    expect((await paperOf(jobId)).void).toBeUndefined()
  })

  it('is void once another die is chosen, says which, and holds again as the next issue', async () => {
    const { jobId, part, actor } = await oneJob()
    await withDie(part.revisionId)
    const { changes } = (await readTravellerStanding(jobId)) ?? { changes: [] }
    expect(changes).toContain('die was none, is D-9')
    expect((await paperOf(jobId)).void?.because).toContain('D-9')
    const { version } = await db.job.findUniqueOrThrow({ where: { id: jobId } })
    expect(await reissueTraveller({ id: jobId, version }, actor)).toEqual({ travellerIssue: 2 })
    expect((await readTravellerStanding(jobId))?.changes).toEqual([])
    const paper = await paperOf(jobId)
    expect(paper.void).toBeUndefined()
    expect(paper.revision).toBe(2)
  })

  it('stays as it was when its new issue fails half-way', async () => {
    const { jobId, part, actor } = await oneJob()
    await withDie(part.revisionId)
    const before = await db.job.findUniqueOrThrow({ where: { id: jobId } })
    await refuseHistory()
    await expect(reissueTraveller({ id: jobId, version: before.version }, actor)).rejects.toThrow()
    expect(await db.job.findUniqueOrThrow({ where: { id: jobId } })).toEqual(before)
  })

  it('is told of a second press that comes too late', async () => {
    const { jobId, actor } = await oneJob()
    const { version } = await db.job.findUniqueOrThrow({ where: { id: jobId } })
    await reissueTraveller({ id: jobId, version }, actor)
    await expect(reissueTraveller({ id: jobId, version }, actor)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    })
  })

  it('is made anew by the desk, and read by everybody', () => {
    expect(roleMay('bench', 'job.write')).toBe(false)
    expect(roleMay('office', 'job.write')).toBe(true)
    expect(roleMay('bench', 'job.read')).toBe(true)
  })

  it('tells of a newer revision of the part', async () => {
    const { jobId, part } = await oneJob()
    await db.partRevision.create({
      data: {
        partId: part.partId,
        letter: 'B',
        shape: 'square',
        widthMm: 38.1,
        heightMm: 38.1,
        wallMm: 3.175,
        materialId: '6061-T6',
        straightAfterMm: 410,
        startCut: { kind: 'square' },
        endCut: { kind: 'square' },
      },
    })
    expect((await readTravellerStanding(jobId))?.newerRevision).toBe('B')
    expect((await paperOf(jobId)).remarks?.join(' ')).toContain('newer revision, B')
  })

  it('has each piece’s bench address, its marks on the blank and a range round each angle', async () => {
    const { jobId } = await oneJob()
    const paper = await paperOf(jobId)
    const pieces = await db.piece.findMany({ where: { jobId }, orderBy: { number: 'asc' } })
    expect(paper.pieces.map(({ benchUrl }) => benchUrl)).toEqual(
      pieces.map(({ scanCode }) => `https://shop.test/bench/${scanCode}`),
    )
    for (const bend of paper.bends) {
      expect(bend.atPress.lowDeg).toBeLessThan(bend.atPress.expectedDeg)
      expect(bend.afterMeltOut?.highDeg).toBeGreaterThan(bend.afterMeltOut?.expectedDeg ?? 0)
    }
    const cut = paper.operations.find(({ title }) => /saw/i.test(title))?.setPoints[0]?.quantity
    expect(cut).toEqual({ lengthMm: paper.part.cutLengthMm })
  })
})
