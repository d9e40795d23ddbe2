import { beforeEach, describe, expect, it } from 'vitest'
import { jobFiller } from '@/lib/records/filler-use/rules'
import { enterJobFiller } from '@/lib/records/filler-use/write'
import { openJob } from '@/lib/records/job/write'
import { fillerBalances } from '@/lib/records/tooling/read'
import { enterFillerMove } from '@/lib/records/tooling/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { bentPart, dueOn } from '../job/bent-part'

let jobId: number
let fillerId: number
let bench: Actor

beforeEach(async () => {
  await freshDatabase()
  const part = await bentPart()
  fillerId = part.fillerId
  bench = await actorWithRole('bench')
  ;({ jobId } = await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, bench))
  await enterFillerMove({ fillerId, kind: 'bought', massKg: 20, noteText: '' }, bench)
})

const move = (kind: 'poured' | 'recovered' | 'lost', massKg: number) =>
  enterJobFiller({ jobId, fillerId, kind, massKg, noteText: '' }, bench)

describe('Filler of a job', () => {
  // 20 - 5 + 4.8 - 0.1 = 19.7 kg in the pot; 5 - 4.8 = 0.2 kg, 4 percent, out on the job.
  it('moves in the pot’s ledger and is balanced on the job', async () => {
    await move('poured', 5)
    await move('recovered', 4.8)
    await move('lost', 0.1)
    expect((await fillerBalances(db)).get(fillerId)?.inPotKg).toBeCloseTo(19.7, 9)
    const moves = await db.fillerEntry.findMany({ where: { jobId }, select: { kind: true, massKg: true } })
    const { outKg, outFraction, spiltKg } = jobFiller(moves)
    expect([outKg, outFraction, spiltKg].map((value) => Number(value?.toFixed(9)))).toEqual([0.2, 0.04, 0.1])
  })

  it('does not give back more than it took, though the pot is owed more by other jobs', async () => {
    await enterFillerMove({ fillerId, kind: 'poured', massKg: 8, noteText: 'another job' }, bench)
    await move('poured', 2)
    await expect(move('recovered', 3)).rejects.toMatchObject({ code: 'not-enough', field: 'massKg' })
  })

  it('comes back twice at once only as far as it is out', async () => {
    await move('poured', 2)
    const outcomes = await Promise.allSettled([move('recovered', 1.5), move('recovered', 1.5)])
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
  })

  it('that fails half-way leaves the ledger as it was', async () => {
    await refuseHistory()
    await expect(move('poured', 2)).rejects.toThrow('history is refused')
    expect(await db.fillerEntry.count({ where: { jobId } })).toBe(0)
  })

  it('of a closed job is refused', async () => {
    await db.job.update({ where: { id: jobId }, data: { status: 'closed' } })
    await expect(move('poured', 1)).rejects.toMatchObject({ code: 'wrong-state' })
  })
})
