import { beforeEach, describe, expect, it } from 'vitest'
import type { CompleteInput } from '@/lib/records/bend-record/schema'
import { completeTry, keepBenchEntry, logTry } from '@/lib/records/bend-record/write'
import { db } from '@/lib/server/db'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { benchPiece, nothingRead } from './bench-piece'

beforeEach(async () => {
  await freshDatabase()
})

const completeOf = (recordKey: string, clientKey: string, angleFinalDeg = 32.1): CompleteInput => ({
  ...nothingRead,
  kind: 'complete',
  clientKey,
  recordKey,
  angleFinalDeg,
})
const historyCount = () => db.auditEntry.count({ where: { entity: 'BendRecord' } })

describe('A try', () => {
  it('sent again after its answer was lost is kept once and answers the same', async () => {
    const { bench, tryAt } = await benchPiece()
    const entry = tryAt('sent-again-000001', { angleFinalDeg: 34 })
    const first = await keepBenchEntry(entry, bench)
    expect(first.tried).toMatchObject({ tryNumber: 1, verdict: 'fail', faultNumber: 'N-0001' })
    expect(await keepBenchEntry(entry, bench)).toEqual(first)
    expect(await db.bendRecord.count()).toBe(1)
    expect(await db.nonconformance.count()).toBe(1)
    expect(await historyCount()).toBe(1)
  })

  it('sent five times at once is kept once, with one line in the history', async () => {
    const { bench, tryAt } = await benchPiece()
    const entry = tryAt('at-once-00000001', { angleFinalDeg: 32 })
    const answers = await Promise.all(Array.from({ length: 5 }, () => logTry(entry, bench)))
    expect(new Set(answers.map(({ recordId }) => recordId)).size).toBe(1)
    expect(await db.bendRecord.count()).toBe(1)
    expect(await historyCount()).toBe(1)
  })

  it('is answered the same after the piece has moved on: it was kept before that', async () => {
    const { bench, tryAt, piece } = await benchPiece()
    const entry = tryAt('moved-on-00000001', { angleFinalDeg: 32 })
    const first = await logTry(entry, bench)
    await db.piece.update({ where: { id: piece.id }, data: { status: 'released' } })
    expect(await logTry(entry, bench)).toMatchObject({ recordId: first.recordId, verdict: 'pass' })
    await expect(logTry(tryAt('after-it-00000001', { bendPosition: 2 }), bench)).rejects.toMatchObject({
      code: 'wrong-state',
    })
  })

  it('of two people at once at one bend is logged for the first, and the second is told what stands there', async () => {
    const { bench, office, tryAt } = await benchPiece()
    const outcomes = await Promise.allSettled([
      logTry(tryAt('first-person-0001', { angleFinalDeg: 32 }), bench),
      logTry(tryAt('second-person-001', { angleFinalDeg: 32 }), office),
    ])
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(outcomes.find(({ status }) => status === 'rejected')).toMatchObject({
      reason: { code: 'wrong-state', message: 'This bend has passed already.' },
    })
    expect(await db.bendRecord.count()).toBe(1)
  })

  it('that fails half-way leaves no try and no fault, and can be sent again', async () => {
    const { bench, tryAt } = await benchPiece()
    await refuseHistory()
    const entry = tryAt('half-way-00000001', { angleFinalDeg: 34 })
    await expect(logTry(entry, bench)).rejects.toThrow('history is refused')
    expect(await db.bendRecord.count()).toBe(0)
    expect(await db.nonconformance.count()).toBe(0)
    await db.$executeRawUnsafe('drop trigger no_history on "AuditEntry"')
    expect(await logTry(entry, bench)).toMatchObject({ tryNumber: 1, faultNumber: 'N-0001' })
  })

  it('of a code that was never printed is refused', async () => {
    const { bench, tryAt } = await benchPiece()
    const entry = tryAt('wrong-code-000001', { scanCode: 'never-printed-0001' })
    await expect(logTry(entry, bench)).rejects.toMatchObject({ code: 'not-found' })
  })
})

describe('The rest of a try', () => {
  async function waitingTry() {
    const piece = await benchPiece()
    const waiting = await logTry(piece.tryAt('waits-for-melt-01', { angleAtPressDeg: 36 }), piece.bench)
    expect(waiting.verdict).toBe('waiting')
    return { ...piece, recordId: waiting.recordId }
  }

  it('is taken once, whether it comes twice or twice at once', async () => {
    const { bench, recordId } = await waitingTry()
    const entry = completeOf('waits-for-melt-01', 'the-rest-of-it-01')
    const [one, other] = await Promise.all([completeTry(entry, bench), completeTry(entry, bench)])
    expect([one.recordId, other.recordId]).toEqual([recordId, recordId])
    expect(await completeTry(entry, bench)).toMatchObject({ verdict: 'pass' })
    expect(await historyCount()).toBe(2)
  })

  it('by somebody else, of a try that is judged, changes nothing', async () => {
    const { bench, office, recordId } = await waitingTry()
    await completeTry(completeOf('waits-for-melt-01', 'the-rest-of-it-02'), bench)
    await expect(
      completeTry(completeOf('waits-for-melt-01', 'another-rest-0001', 20), office),
    ).rejects.toMatchObject({ code: 'already-done' })
    expect(await db.bendRecord.findUniqueOrThrow({ where: { id: recordId } })).toMatchObject({
      angleFinalDeg: 32.1,
      verdict: 'pass',
    })
  })

  it('that arrives before its try is told so, and is taken once the try is there', async () => {
    const { bench, tryAt } = await benchPiece()
    const entry = completeOf('comes-later-00001', 'comes-first-00001')
    await expect(completeTry(entry, bench)).rejects.toMatchObject({ code: 'not-found' })
    await logTry(tryAt('comes-later-00001', { angleAtPressDeg: 36 }), bench)
    expect(await completeTry(entry, bench)).toMatchObject({ verdict: 'pass' })
  })

  it('that fails half-way leaves the try waiting', async () => {
    const { bench, recordId } = await waitingTry()
    await refuseHistory()
    const entry = completeOf('waits-for-melt-01', 'the-rest-of-it-03')
    await expect(completeTry(entry, bench)).rejects.toThrow('history is refused')
    expect(await db.bendRecord.findUniqueOrThrow({ where: { id: recordId } })).toMatchObject({
      angleFinalDeg: null,
      verdict: 'waiting',
    })
  })
})

describe('A fault and a picture from the bench', () => {
  it('a fault sent twice, and twice at once, is one fault', async () => {
    const { bench, piece } = await benchPiece()
    const entry = {
      kind: 'fault' as const,
      clientKey: 'a-fault-000000001',
      scanCode: piece.scanCode,
      description: 'Dropped: a dent beside bend 1',
    }
    const [one, other] = await Promise.all([keepBenchEntry(entry, bench), keepBenchEntry(entry, bench)])
    expect([one.number, other.number]).toEqual(['N-0001', 'N-0001'])
    expect(await keepBenchEntry(entry, bench)).toMatchObject({ number: 'N-0001' })
    expect(await db.nonconformance.count()).toBe(1)
  })

  // The first bytes of a JPEG: SOI, APP0 and "JFIF". Source: ITU-T T.871, clause 10.
  const jpeg = Buffer.from('ffd8ffe000104a46494600010100000100010000ffd9', 'hex').toString('base64')
  const photoOf = (recordKey: string, base64 = jpeg) => ({
    kind: 'photo' as const,
    clientKey: 'a-picture-0000001',
    recordKey,
    name: 'bend.jpg',
    base64,
  })

  it('a picture sent twice at once hangs on its try once', async () => {
    const { bench, tryAt } = await benchPiece()
    const { recordId } = await logTry(tryAt('has-a-picture-001', { angleFinalDeg: 32 }), bench)
    await Promise.all([1, 2].map(() => keepBenchEntry(photoOf('has-a-picture-001'), bench)))
    await keepBenchEntry(photoOf('has-a-picture-001'), bench)
    expect(await db.storedFile.findMany({ select: { bendRecordId: true, mediaType: true } })).toEqual([
      { bendRecordId: recordId, mediaType: 'image/jpeg' },
    ])
  })

  it('a picture that fails half-way, comes before its try, or is none leaves nothing', async () => {
    const { bench, tryAt } = await benchPiece()
    await expect(keepBenchEntry(photoOf('comes-later-00002'), bench)).rejects.toMatchObject({
      code: 'not-found',
    })
    await logTry(tryAt('comes-later-00002', { angleFinalDeg: 32 }), bench)
    const text = Buffer.from('<svg onload="x">').toString('base64')
    await expect(keepBenchEntry(photoOf('comes-later-00002', text), bench)).rejects.toMatchObject({
      code: 'bad-file',
    })
    await refuseHistory()
    await expect(keepBenchEntry(photoOf('comes-later-00002'), bench)).rejects.toThrow('history is refused')
    expect(await db.storedFile.count()).toBe(0)
  })
})
