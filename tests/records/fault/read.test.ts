import { beforeEach, describe, expect, it } from 'vitest'
import { logTry } from '@/lib/records/bend-record/write'
import { readFault } from '@/lib/records/fault/read'
import { decideFault } from '@/lib/records/fault/write'
import { db } from '@/lib/server/db'
import { freshDatabase } from '@/tests/support/database'
import { benchPiece } from '../bend-record/bench-piece'
import { lotOf } from '../job/bent-part'

beforeEach(async () => {
  await freshDatabase()
})

/** Two degrees over at the first bend: the part asks 32 plus or minus 1. */
async function failedBend() {
  const made = await benchPiece()
  await logTry(made.tryAt('a-try-that-failed', { angleFinalDeg: 34, wallOutsideMm: 2.6 }), made.bench)
  const { id } = await db.nonconformance.findFirstOrThrow()
  const decide = (disposition: 'rework' | 'scrap', stockPieceId: number | null = null) =>
    decideFault({ id, version: 0, disposition, whyText: 'Over by two degrees', stockPieceId }, made.office)
  return { ...made, id, decide }
}

describe('The page of a fault', () => {
  it('has the try that opened it with all that was read, and who opened it', async () => {
    const { id, piece } = await failedBend()
    const fault = await readFault(id)
    expect(fault?.bendRecord).toMatchObject({ tryNumber: 1, angleFinalDeg: 34, wallOutsideMm: 2.6 })
    expect(fault?.piece?.number).toBe(piece.number)
    expect(fault?.history.map(({ action }) => action)).toEqual(['opened'])
    expect(fault?.taken).toBeNull()
    expect(await readFault(id + 1)).toBeNull()
  })

  it('has the tries after a rework, in order', async () => {
    const { id, decide, tryAt, bench } = await failedBend()
    await decide('rework')
    await logTry(tryAt('the-try-after-it', { angleFinalDeg: 32 }), bench)
    const fault = await readFault(id)
    expect(fault?.piece?.bendRecords.map(({ tryNumber, verdict }) => [tryNumber, verdict])).toEqual([
      [1, 'fail'],
      [2, 'pass'],
    ])
    expect(fault?.history.map(({ action }) => action)).toEqual(['opened', 'decided'])
  })

  it('has the replacement of a scrapped piece and the tube that was taken for it', async () => {
    const { id, decide } = await failedBend()
    const [tube] = await lotOf([6000], '90417')
    await decide('scrap', tube ?? null)
    const fault = await readFault(id)
    expect(fault?.piece?.replacements.map(({ number, status }) => [number, status])).toEqual([[2, 'open']])
    expect(fault?.taken).toMatchObject({ id: tube, lot: { heatNumber: '90417' } })
    expect(fault?.history.map(({ action }) => action)).toEqual(['opened', 'started a replacement', 'decided'])
  })
})
