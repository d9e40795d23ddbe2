import { beforeEach, describe, expect, it } from 'vitest'
import { benchAddress } from '@/app/bench/find-piece'
import { completeTry, logTry } from '@/lib/records/bend-record/write'
import { openJob } from '@/lib/records/job/write'
import { readPieceNamed } from '@/lib/records/piece/read'
import { readPieceName } from '@/lib/records/piece/rules'
import { releasePieces } from '@/lib/records/release/write'
import { db } from '@/lib/server/db'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { bentPart, dueOn } from '../job/bent-part'

const code = 'AbCdEfGh_-0123456789xyzA'

describe('The name of a piece', () => {
  it('is read as a label has it, with or without what can be left out', () => {
    const third = { jobNumber: 'J-0012', pieceNumber: 3 }
    for (const typed of ['J-0012/3', 'j-12/3', ' 12 / 3 ', 'J12 piece 3', 'J-0012, piece 3', '0012 3'])
      expect([typed, readPieceName(typed)]).toEqual([typed, third])
    expect(readPieceName('J-10042')).toEqual({ jobNumber: 'J-10042', pieceNumber: null })
  })

  it('is read from the address in a scanned code, whatever the host was called then', () => {
    expect(readPieceName(`http://192.168.1.20:3000/bench/${code}`)).toEqual({ scanCode: code })
    expect(readPieceName(code)).toEqual({ scanCode: code })
    expect(benchAddress(`http://192.168.1.20:3000/bench/${code}`)).toBe(`/bench/${code}`)
    expect(benchAddress('https://shop.test/jobs/17')).toBe('/jobs/17')
    expect(benchAddress('https://elsewhere.test/offers')).toBeNull()
  })

  it('is nothing else', () => {
    for (const typed of ['', 'davit arm', 'J-', '12/3/4', "1' or 1=1"])
      expect([typed, readPieceName(typed)]).toEqual([typed, null])
  })
})

describe('A named piece', () => {
  beforeEach(async () => {
    await freshDatabase()
  })

  it('is found by job and number, and a job alone leads to its first open piece', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    const { jobId, number } = await openJob(
      { revisionId: part.revisionId, quantity: 2, dueOn, way: '' },
      actor,
    )
    const [first, second] = await db.piece.findMany({ where: { jobId }, orderBy: { number: 'asc' } })
    expect(await readPieceNamed({ jobNumber: number, pieceNumber: 2 })).toBe(second?.scanCode)
    expect(await readPieceNamed({ jobNumber: number, pieceNumber: null })).toBe(first?.scanCode)
    await db.piece.update({ where: { id: first?.id ?? 0 }, data: { status: 'scrapped' } })
    expect(await readPieceNamed({ jobNumber: number, pieceNumber: null })).toBe(second?.scanCode)
    expect(await readPieceNamed({ jobNumber: number, pieceNumber: 3 })).toBeNull()
    expect(await readPieceNamed({ scanCode: 'of-no-piece-at-all' })).toBeNull()
  })
})

describe('A piece that is not bent here', () => {
  beforeEach(async () => {
    await freshDatabase()
  })

  it('is measured once it is welded, and released on that', async () => {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    const { jobId } = await openJob(
      { revisionId: part.revisionId, quantity: 1, dueOn, way: 'mitredWelded' },
      actor,
    )
    const piece = await db.piece.findFirstOrThrow({ where: { jobId } })
    const read = {
      kind: 'try' as const,
      scanCode: piece.scanCode,
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
    const key = 'a-corner-measured'
    const waits = await logTry(
      { ...read, bendPosition: 1, angleFinalDeg: null, clientKey: `${key}-0` },
      actor,
    )
    expect(waits.reasons.map(({ text }) => text)).toEqual(['waits for the finished angle'])
    const second = await logTry(
      { ...read, bendPosition: 2, angleFinalDeg: 20.1, clientKey: `${key}-2` },
      actor,
    )
    expect([second.verdict, second.next]).toEqual(['pass', null])
    const { kind: _, scanCode: __, targetAtPressDeg: ___, ...rest } = read
    await completeTry(
      {
        ...rest,
        kind: 'complete',
        angleFinalDeg: 32,
        recordKey: `${key}-0`,
        clientKey: `${key}-1`,
      },
      actor,
    )
    await releasePieces({ jobId, pieceIds: [piece.id], noteText: '' }, actor)
    expect((await db.piece.findUniqueOrThrow({ where: { id: piece.id } })).status).toBe('released')
  })
})
