import { beforeEach, expect, it } from 'vitest'
import { logTry } from '@/lib/records/bend-record/write'
import { decideFault, openFaultByHand } from '@/lib/records/fault/write'
import { openJob } from '@/lib/records/job/write'
import { releasePieces } from '@/lib/records/release/write'
import { db } from '@/lib/server/db'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { bentPart, dueOn } from '../job/bent-part'

beforeEach(async () => {
  await freshDatabase()
})

const empty = {
  kind: 'try' as const,
  targetAtPressDeg: null,
  loadedAngleDeg: null,
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
  const office = await actorWithRole('office')
  const bench = await actorWithRole('bench')
  const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, office)
  const piece = await db.piece.findFirstOrThrow({ where: { jobId } })
  const log = (bendPosition: number, angleFinalDeg: number, clientKey: string) =>
    logTry({ ...empty, scanCode: piece.scanCode, bendPosition, angleFinalDeg, clientKey }, bench)
  const release = () => releasePieces({ jobId, pieceIds: [piece.id], noteText: '' }, office)
  return { jobId, piece, office, bench, log, release }
}

// The part asks 32 and 20 degrees, each plus or minus 1; 34 is outside whatever the gauge of 0.2.
it('releases a piece once both bends passed, and not before', async () => {
  const { log, release, piece } = await oneJob()
  expect((await log(1, 32.1, 'key-of-bend-one-1')).verdict).toBe('pass')
  await expect(release()).rejects.toMatchObject({ code: 'wrong-state' })
  await log(2, 20, 'key-of-bend-two-1')
  expect((await release()).number).toBe('R-0001')
  expect((await db.piece.findUniqueOrThrow({ where: { id: piece.id } })).status).toBe('released')
  await expect(release()).rejects.toMatchObject({ code: 'wrong-state' })
})

it('keeps an entry that is sent twice at once only once', async () => {
  const { log } = await oneJob()
  const [one, other] = await Promise.all([log(1, 34, 'the-same-key-0001'), log(1, 34, 'the-same-key-0001')])
  expect(one.recordId).toBe(other.recordId)
  expect(await db.bendRecord.count()).toBe(1)
  expect(await db.nonconformance.count()).toBe(1)
})

it('opens a fault with a failed bend, and a concession lets the piece go', async () => {
  const { log, release, office, bench } = await oneJob()
  expect(await log(1, 34, 'key-of-bend-one-2')).toMatchObject({ verdict: 'fail', faultNumber: 'N-0001' })
  await log(2, 20, 'key-of-bend-two-2')
  await expect(release()).rejects.toMatchObject({ code: 'wrong-state' })
  const fault = await db.nonconformance.findFirstOrThrow()
  const decision = {
    id: fault.id,
    version: 0,
    disposition: 'concession' as const,
    whyText: 'Fits',
    stockPieceId: null,
  }
  await expect(decideFault(decision, bench)).rejects.toMatchObject({ code: 'not-allowed' })
  await decideFault(decision, office)
  expect((await release()).number).toBe('R-0001')
})

it('starts a replacement for a scrapped piece', async () => {
  const { log, office, jobId, piece } = await oneJob()
  await log(1, 34, 'key-of-bend-one-3')
  const fault = await db.nonconformance.findFirstOrThrow()
  await decideFault(
    { id: fault.id, version: 0, disposition: 'scrap', whyText: 'Over-bent', stockPieceId: null },
    office,
  )
  const pieces = await db.piece.findMany({ where: { jobId }, orderBy: { number: 'asc' } })
  expect(pieces.map(({ status }) => status)).toEqual(['scrapped', 'open'])
  expect(pieces[1]?.replacesId).toBe(piece.id)
})

it('refuses a release past an open fault of the whole job', async () => {
  const { log, release, jobId, bench } = await oneJob()
  await log(1, 32, 'key-of-bend-one-4')
  await log(2, 20, 'key-of-bend-two-4')
  await openFaultByHand({ jobId, pieceId: null, bendPosition: null, description: 'Wrong heat' }, bench)
  await expect(release()).rejects.toMatchObject({ code: 'wrong-state' })
})

it('releases the chosen pieces of those that are ready, with what is said of them', async () => {
  const part = await bentPart()
  const office = await actorWithRole('office')
  const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 2, dueOn, way: '' }, office)
  const pieces = await db.piece.findMany({ where: { jobId }, orderBy: { number: 'asc' } })
  for (const { scanCode, number } of pieces) {
    for (const bendPosition of [1, 2]) {
      const angleFinalDeg = bendPosition === 1 ? 32 : 20
      const clientKey = `piece-${number}-bend-${bendPosition}-key`
      await logTry({ ...empty, scanCode, bendPosition, angleFinalDeg, clientKey }, office)
    }
  }
  const [, second] = pieces
  const { id } = await releasePieces(
    { jobId, pieceIds: [second?.id ?? 0], noteText: 'Sent ahead for the trial fit' },
    office,
  )
  const release = await db.release.findUniqueOrThrow({ where: { id }, include: { pieces: true } })
  expect(release.pieces.map(({ pieceId }) => pieceId)).toEqual([second?.id])
  expect(release.statementText).toMatch(/Sent ahead for the trial fit$/)
  const left = await db.piece.findMany({ where: { jobId, status: 'open' } })
  expect(left.map(({ number }) => number)).toEqual([1])
})
