import { beforeEach, describe, expect, it } from 'vitest'
import { decideFault, openFaultByHand } from '@/lib/records/fault/write'
import { openJob } from '@/lib/records/job/write'
import { cutPieces, freeStock, reserveStock, undoCut } from '@/lib/records/piece/write'
import { readHeat, readPieceTrace } from '@/lib/records/trace/read'
import { db } from '@/lib/server/db'
import { roleMay } from '@/lib/server/permissions'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { bentPart, dueOn, lotOf } from '../job/bent-part'

beforeEach(async () => {
  await freshDatabase()
})

async function twoJobs() {
  const part = await bentPart()
  const office = await actorWithRole('office')
  const open = () => openJob({ revisionId: part.revisionId, quantity: 3, dueOn, way: '' }, office)
  const [one, other] = [await open(), await open()]
  const pieces = await db.piece.findMany({ where: { jobId: one.jobId }, orderBy: { number: 'asc' } })
  return { one, other, office, pieceIds: pieces.map(({ id }) => id), ...part }
}

const cutOf = (jobId: number, stockPieceId: number, pieceIds: number[]) => ({
  jobId,
  stockPieceId,
  pieceIds,
  cutLengthMm: 1800,
  leftMm: null,
  place: 'Offcut bin',
})

describe('A bar', () => {
  it('goes to one job when two people reserve it for two at the same moment', async () => {
    const { one, other, office } = await twoJobs()
    const [bar = 0] = await lotOf([6000])
    const outcomes = await Promise.allSettled([
      reserveStock({ jobId: one.jobId, stockPieceIds: [bar] }, office),
      reserveStock({ jobId: other.jobId, stockPieceIds: [bar] }, office),
    ])
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(outcomes.find(({ status }) => status === 'rejected')).toMatchObject({
      reason: { code: 'still-in-use' },
    })
  })

  it('of another size is refused', async () => {
    const { one, office } = await twoJobs()
    const [bar = 0] = await lotOf([6000])
    await db.stockLot.updateMany({ data: { wallMm: 2 } })
    await expect(reserveStock({ jobId: one.jobId, stockPieceIds: [bar] }, office)).rejects.toMatchObject({
      code: 'bad-input',
    })
  })

  it('is given back while nothing is cut from it, and not after', async () => {
    const { one, office, pieceIds } = await twoJobs()
    const [bar = 0] = await lotOf([6000])
    const choice = { jobId: one.jobId, stockPieceIds: [bar] }
    await reserveStock(choice, office)
    await freeStock(choice, office)
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: bar } })).reservedForJobId).toBeNull()
    await reserveStock(choice, office)
    await cutPieces(cutOf(one.jobId, bar, pieceIds.slice(0, 1)), office)
    await expect(freeStock(choice, office)).rejects.toMatchObject({ code: 'still-in-use' })
  })
})

describe('A cut', () => {
  // 6000 - 2 x (1800 + 2 kerf) = 2396 mm.
  it('ties pieces to the heat and puts 2396 mm of 6000 back after two of 1800 with a 2 mm kerf', async () => {
    const { one, office, pieceIds } = await twoJobs()
    const [bar = 0] = await lotOf([6000], 'H22914')
    await reserveStock({ jobId: one.jobId, stockPieceIds: [bar] }, office)
    const cut = await cutPieces(cutOf(one.jobId, bar, pieceIds.slice(0, 2)), office)
    expect(cut.leftMm).toBeCloseTo(2396, 6)
    const offcut = await db.stockPiece.findUniqueOrThrow({ where: { id: cut.offcutId ?? 0 } })
    expect(offcut).toMatchObject({ isOffcut: true, cutFromId: bar, reservedForJobId: null, usedAt: null })
    const forward = await readHeat('H22914')
    expect(forward.pieces.map(({ number, job }) => [job.id, number])).toEqual([
      [one.jobId, 1],
      [one.jobId, 2],
    ])
    const back = await readPieceTrace(pieceIds[0] ?? 0)
    expect(back?.stockPiece?.lot.heatNumber).toBe('H22914')
    expect((await readPieceTrace(pieceIds[2] ?? 0))?.stockPiece).toBeNull()
  })

  it('of more than the bar has is refused, and nothing is cut', async () => {
    const { one, office, pieceIds } = await twoJobs()
    const [bar = 0] = await lotOf([5300])
    await reserveStock({ jobId: one.jobId, stockPieceIds: [bar] }, office)
    await expect(cutPieces(cutOf(one.jobId, bar, pieceIds), office)).rejects.toMatchObject({
      code: 'not-enough',
      field: 'pieceIds',
    })
    expect(await db.piece.count({ where: { stockPieceId: { not: null } } })).toBe(0)
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: bar } })).usedAt).toBeNull()
  })

  it('of one bar by two people at once is noted once', async () => {
    const { one, office, pieceIds } = await twoJobs()
    const [bar = 0] = await lotOf([6000])
    await reserveStock({ jobId: one.jobId, stockPieceIds: [bar] }, office)
    const outcomes = await Promise.allSettled([
      cutPieces(cutOf(one.jobId, bar, pieceIds.slice(0, 1)), office),
      cutPieces(cutOf(one.jobId, bar, pieceIds.slice(1, 2)), office),
    ])
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    expect(await db.stockPiece.count({ where: { isOffcut: true } })).toBe(1)
    expect(await db.piece.count({ where: { stockPieceId: bar } })).toBe(1)
  })

  it('that fails half-way leaves the bar whole', async () => {
    const { one, office, pieceIds } = await twoJobs()
    const [bar = 0] = await lotOf([6000])
    await reserveStock({ jobId: one.jobId, stockPieceIds: [bar] }, office)
    await refuseHistory()
    await expect(cutPieces(cutOf(one.jobId, bar, pieceIds), office)).rejects.toThrow('history is refused')
    expect(await db.piece.count({ where: { stockPieceId: { not: null } } })).toBe(0)
    expect(await db.stockPiece.count()).toBe(1)
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: bar } })).usedAt).toBeNull()
  })

  it('is taken back with its offcut, until the offcut is used', async () => {
    const { one, other, office, pieceIds } = await twoJobs()
    const [bar = 0] = await lotOf([6000])
    await reserveStock({ jobId: one.jobId, stockPieceIds: [bar] }, office)
    await cutPieces(cutOf(one.jobId, bar, pieceIds.slice(0, 2)), office)
    await undoCut({ jobId: one.jobId, stockPieceId: bar }, office)
    expect(await db.stockPiece.count()).toBe(1)
    expect(await db.piece.count({ where: { stockPieceId: { not: null } } })).toBe(0)
    const { offcutId } = await cutPieces(cutOf(one.jobId, bar, pieceIds.slice(0, 2)), office)
    await reserveStock({ jobId: other.jobId, stockPieceIds: [offcutId ?? 0] }, office)
    await expect(undoCut({ jobId: one.jobId, stockPieceId: bar }, office)).rejects.toMatchObject({
      code: 'still-in-use',
    })
    expect(await db.piece.count({ where: { stockPieceId: bar } })).toBe(2)
  })
})

describe('A scrapped piece', () => {
  it('gets one replacement and reserves the tube named for it; its second fault starts no other', async () => {
    const { one, office, pieceIds } = await twoJobs()
    const [bar = 0] = await lotOf([2500])
    const pieceId = pieceIds[0] ?? 0
    for (const description of ['Kinked', 'And the wrong way round']) {
      await openFaultByHand({ jobId: one.jobId, pieceId, bendPosition: null, description }, office)
    }
    const faults = await db.nonconformance.findMany({ orderBy: { id: 'asc' } })
    const scrap = (id: number, stockPieceId: number | null) =>
      decideFault({ id, version: 0, disposition: 'scrap', whyText: 'Kinked', stockPieceId }, office)
    expect((await scrap(faults[0]?.id ?? 0, bar)).replacement).toBe(4)
    expect((await scrap(faults[1]?.id ?? 0, null)).replacement).toBeNull()
    expect(await db.piece.count({ where: { jobId: one.jobId } })).toBe(4)
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: bar } })).reservedForJobId).toBe(one.jobId)
  })
})

it('the bench notes cuts and faults; stock, release and decisions are the desk’s, lessons the owner’s', () => {
  expect(roleMay('bench', 'bench.write') && roleMay('bench', 'fault.write')).toBe(true)
  for (const permission of ['stock.write', 'release.write', 'fault.decide', 'job.write'] as const) {
    expect(roleMay('bench', permission)).toBe(false)
  }
  expect([roleMay('office', 'lesson.accept'), roleMay('owner', 'lesson.accept')]).toEqual([false, true])
})
