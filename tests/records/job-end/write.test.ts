import { beforeEach, describe, expect, it } from 'vitest'
import { logTry } from '@/lib/records/bend-record/write'
import { changeDue, openJob } from '@/lib/records/job/write'
import { numbersText } from '@/lib/records/job-end/rules'
import { cancelJob, closeJob, reopenJob } from '@/lib/records/job-end/write'
import { readLearnedFactor } from '@/lib/records/lesson/read'
import { decideLesson } from '@/lib/records/lesson/write'
import { startOperation, stopOperation } from '@/lib/records/operation/write'
import { reserveStock } from '@/lib/records/piece/write'
import { wholeRates } from '@/lib/records/rates/rules'
import { releasePieces } from '@/lib/records/release/write'
import { db } from '@/lib/server/db'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { bentPart, dueOn, lotOf } from '../job/bent-part'

beforeEach(async () => {
  await freshDatabase()
})

const reading = {
  kind: 'try' as const,
  targetAtPressDeg: null,
  angleAtPressDeg: null,
  radiusMm: null,
  widthOutsideMm: null,
  widthMiddleMm: null,
  widthInsideMm: null,
  heightMm: null,
  wallOutsideMm: null,
  wallInsideMm: null,
  look: 'clean' as const,
  dyePenetrant: 'notDone' as const,
  gaugeText: 'protractor 1',
  gaugeUncertaintyDeg: 0.2,
  noteText: '',
}

async function oneJob() {
  const part = await bentPart()
  const owner = await actorWithRole('owner')
  const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, owner)
  const piece = await db.piece.findFirstOrThrow({ where: { jobId } })
  return { ...part, owner, jobId, piece }
}

/** Both bends good, the loaded angle 3 degrees over: measured springback of 3 degrees each. */
async function bentJob() {
  const job = await oneJob()
  for (const [bendPosition, angleDeg] of [
    [1, 32],
    [2, 20],
  ] as const) {
    await logTry(
      {
        ...reading,
        scanCode: job.piece.scanCode,
        bendPosition,
        angleFinalDeg: angleDeg,
        loadedAngleDeg: angleDeg + 3,
        clientKey: `key-of-bend-${bendPosition}-0000`,
      },
      job.owner,
    )
  }
  const operation = await db.jobOperation.findFirstOrThrow({ where: { jobId: job.jobId, key: 'bend' } })
  const at = Date.now() - 3_600_000
  await startOperation(
    { clientKey: 'start-of-bend-0001', operationId: operation.id, pieceId: null, at: new Date(at) },
    job.owner,
  )
  await stopOperation(
    { clientKey: 'stop-of-bend-00001', startKey: 'start-of-bend-0001', at: new Date(at + 40 * 60_000) },
    job.owner,
  )
  await releasePieces({ jobId: job.jobId, pieceIds: [job.piece.id], noteText: '' }, job.owner)
  return { ...job, operation }
}

describe('Closing', () => {
  it('past a piece that is neither released nor scrapped needs a reason', async () => {
    const { jobId, owner } = await oneJob()
    await expect(closeJob({ id: jobId, version: 0, whyText: '' }, owner)).rejects.toMatchObject({
      code: 'wrong-state',
      field: 'whyText',
    })
    await closeJob({ id: jobId, version: 0, whyText: 'The customer takes it half done' }, owner)
    expect(await db.job.findUniqueOrThrow({ where: { id: jobId } })).toMatchObject({
      status: 'closed',
      endReason: 'The customer takes it half done',
    })
  })

  it('draws a factor and a first try from each bend and the minutes of each clock, all undecided', async () => {
    const { jobId, owner } = await bentJob()
    await closeJob({ id: jobId, version: 0, whyText: '' }, owner)
    const lessons = await db.lesson.findMany({ orderBy: { id: 'asc' } })
    expect(lessons.map(({ kind }) => kind).sort()).toEqual([
      'firstTry',
      'firstTry',
      'operationMinutes',
      'springbackFactor',
      'springbackFactor',
    ])
    expect(lessons.find(({ kind }) => kind === 'operationMinutes')).toMatchObject({
      operationKey: 'bend',
      value: 40,
    })
    expect(lessons.every(({ acceptedAt, declinedAt }) => acceptedAt === null && declinedAt === null)).toBe(
      true,
    )
  })

  it('that fails half-way leaves the job open, its stock reserved and no lesson', async () => {
    const { jobId, owner } = await bentJob()
    const [bar = 0] = await lotOf([6000])
    await reserveStock({ jobId, stockPieceIds: [bar] }, owner)
    await refuseHistory()
    await expect(closeJob({ id: jobId, version: 0, whyText: '' }, owner)).rejects.toThrow(
      'history is refused',
    )
    expect((await db.job.findUniqueOrThrow({ where: { id: jobId } })).status).toBe('open')
    expect(await db.lesson.count()).toBe(0)
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: bar } })).reservedForJobId).toBe(jobId)
  })

  it('is refused over a change somebody else saved', async () => {
    const { jobId, owner } = await oneJob()
    await changeDue({ id: jobId, version: 0, dueOn: new Date('2027-01-08') }, owner)
    await expect(closeJob({ id: jobId, version: 0, whyText: 'Enough' }, owner)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    })
  })

  it('can be taken back, and draws undecided lessons afresh without counting a bend twice', async () => {
    const { jobId, owner } = await bentJob()
    await closeJob({ id: jobId, version: 0, whyText: '' }, owner)
    const { method } = await db.lesson.findFirstOrThrow({ where: { kind: 'springbackFactor' } })
    await decideLesson({ jobId, kind: 'springbackFactor', method, operationKey: '', accept: true }, owner)
    await reopenJob({ id: jobId, version: 1 }, owner)
    expect(await db.lesson.count()).toBe(2)
    await closeJob({ id: jobId, version: 2, whyText: '' }, owner)
    expect(await db.lesson.count()).toBe(5)
  })
})

describe('Cancelling', () => {
  it('gives back stock that is not cut, and is refused once a piece is released', async () => {
    const { jobId, owner } = await oneJob()
    const [bar = 0] = await lotOf([6000])
    await reserveStock({ jobId, stockPieceIds: [bar] }, owner)
    await cancelJob({ id: jobId, version: 0, whyText: 'The boat was sold' }, owner)
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: bar } })).reservedForJobId).toBeNull()
    await expect(cancelJob({ id: jobId, version: 1, whyText: 'Again' }, owner)).rejects.toMatchObject({
      code: 'already-done',
    })
  })

  it('is refused once a piece is released', async () => {
    const { jobId, owner } = await bentJob()
    await expect(cancelJob({ id: jobId, version: 0, whyText: 'Too late' }, owner)).rejects.toMatchObject({
      code: 'wrong-state',
    })
  })
})

describe('A lesson', () => {
  it('counts for the next plan of the tube only once the owner accepts it, and no longer once left out', async () => {
    const { jobId, owner } = await bentJob()
    await closeJob({ id: jobId, version: 0, whyText: '' }, owner)
    const lesson = await db.lesson.findFirstOrThrow({ where: { kind: 'springbackFactor' } })
    const tube = { materialId: lesson.materialId, sectionText: lesson.sectionText, method: lesson.method }
    const decide = (accept: boolean) =>
      decideLesson(
        { jobId, kind: 'springbackFactor', method: lesson.method, operationKey: '', accept },
        owner,
      )
    // Before anything is accepted the model counts: 1 with 0.15.
    expect(await readLearnedFactor(db, tube)).toMatchObject({ mean: 1, sd: 0.15, bendCount: 0 })
    await decide(true)
    const learned = await readLearnedFactor(db, tube)
    expect(learned.bendCount).toBe(2)
    expect(learned.sd).toBeLessThan(0.15)
    await decide(false)
    expect(await readLearnedFactor(db, tube)).toMatchObject({ mean: 1, bendCount: 0 })
  })

  it('of minutes makes one new sheet of rates that says why, however often it is pressed', async () => {
    const { jobId, owner, operation } = await bentJob()
    await closeJob({ id: jobId, version: 0, whyText: '' }, owner)
    const { method } = await db.lesson.findFirstOrThrow({ where: { kind: 'operationMinutes' } })
    const accept = () =>
      decideLesson({ jobId, kind: 'operationMinutes', method, operationKey: 'bend', accept: true }, owner)
    const outcomes = await Promise.allSettled([accept(), accept()])
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    const sheets = await db.rateSheet.findMany()
    expect(sheets).toHaveLength(1)
    expect(sheets[0]?.reasonText).toContain('J-0001')
    // Two prior times at the plan and one logged: the geometric mean, so the factor is (logged / planned)^(1/3).
    const factor = (40 / (operation.plannedSetUpMinutes + operation.plannedRunMinutesPerPiece)) ** (1 / 3)
    // The shop's bending time starts at 6 minutes.
    expect(wholeRates(sheets[0]?.rates).times.bendMinutes.likely).toBeCloseTo(6 * factor, 1)
  })

  it('of first tries sets the yield by the rule of succession: one good piece of one is 2/3', async () => {
    const { jobId, owner } = await bentJob()
    await closeJob({ id: jobId, version: 0, whyText: '' }, owner)
    const { method } = await db.lesson.findFirstOrThrow({ where: { kind: 'firstTry' } })
    await decideLesson({ jobId, kind: 'firstTry', method, operationKey: '', accept: true }, owner)
    const sheet = await db.rateSheet.findFirstOrThrow()
    expect(wholeRates(sheet.rates).firstPassYieldFraction).toBeCloseTo(0.667, 3)
  })

  it('is the owner’s to decide, and a failure half-way leaves it undecided and the rates as they were', async () => {
    const { jobId, owner } = await bentJob()
    await closeJob({ id: jobId, version: 0, whyText: '' }, owner)
    const { method } = await db.lesson.findFirstOrThrow({ where: { kind: 'operationMinutes' } })
    const accept = {
      jobId,
      kind: 'operationMinutes' as const,
      method,
      operationKey: 'bend' as const,
      accept: true,
    }
    await expect(decideLesson(accept, await actorWithRole('office'))).rejects.toMatchObject({
      code: 'not-allowed',
    })
    await refuseHistory()
    await expect(decideLesson(accept, owner)).rejects.toThrow('history is refused')
    expect(await db.rateSheet.count()).toBe(0)
    expect(await db.lesson.count({ where: { acceptedAt: { not: null } } })).toBe(0)
  })
})

it('writes numbers as people do', () => {
  expect(numbersText([4, 1, 2, 3, 7, 9, 10])).toBe('1–4, 7, 9, 10')
})
