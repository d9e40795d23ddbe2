import { beforeEach, describe, expect, it } from 'vitest'
import { startOperation, stopOperation } from '@/lib/records/operation/write'
import { db } from '@/lib/server/db'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { benchPiece } from '../bend-record/bench-piece'

beforeEach(async () => {
  await freshDatabase()
})

const minutesAgo = (minutes: number) => new Date(Date.now() - minutes * 60_000)

async function clock() {
  const found = await benchPiece()
  const start = (clientKey: string, at = minutesAgo(90)) =>
    startOperation({ clientKey, operationId: found.operation.id, pieceId: found.piece.id, at }, found.bench)
  const stop = (startKey: string, clientKey: string, at = minutesAgo(10), reasonText = '') =>
    stopOperation({ clientKey, startKey, at, reasonText }, found.bench)
  return { ...found, start, stop }
}
const clocks = () => db.operationLog.findMany({ orderBy: { id: 'asc' } })

describe('A clock', () => {
  it('sent twice, and twice at once, starts and stops once, at the times of the device', async () => {
    const { start, stop, bench, piece } = await clock()
    const [began, ended] = [minutesAgo(90), minutesAgo(10)]
    await Promise.all([start('a-start-0000000001', began), start('a-start-0000000001', began)])
    await start('a-start-0000000001', began)
    await Promise.all([
      stop('a-start-0000000001', 'a-stop-00000000001', ended),
      stop('a-start-0000000001', 'a-stop-00000000001', ended),
    ])
    await stop('a-start-0000000001', 'a-stop-00000000001', minutesAgo(1))
    expect(await clocks()).toMatchObject([
      { byId: bench.userId, pieceId: piece.id, startedAt: began, endedAt: ended },
    ])
  })

  it('is not started a second time by the same person on the same operation, and is by another', async () => {
    const { start, operation, office } = await clock()
    await start('a-start-0000000002')
    await expect(start('another-start-0001')).rejects.toMatchObject({ code: 'already-done' })
    const theirs = { clientKey: 'their-start-000001', operationId: operation.id, pieceId: null }
    await startOperation({ ...theirs, at: minutesAgo(5) }, office)
    expect(await clocks()).toHaveLength(2)
  })

  it('whose start has not arrived is told so, not lost', async () => {
    const { start, stop } = await clock()
    const early = () => stop('comes-later-000001', 'an-early-stop-0001')
    await expect(early()).rejects.toMatchObject({ code: 'not-found' })
    await start('comes-later-000001')
    await early()
    expect((await clocks())[0]?.endedAt).not.toBeNull()
  })

  it('does not run backwards, nor from a device whose own clock is ahead', async () => {
    const { start, stop } = await clock()
    await expect(start('ahead-00000000001', minutesAgo(-11))).rejects.toMatchObject({ code: 'bad-input' })
    await start('a-start-0000000003', minutesAgo(30))
    await expect(stop('a-start-0000000003', 'a-stop-00000000003', minutesAgo(31))).rejects.toMatchObject({
      code: 'bad-input',
    })
    expect((await clocks()).map(({ endedAt }) => endedAt)).toEqual([null])
  })

  it('of a closed job, or for a piece of another job, is not started', async () => {
    const { start, operation, bench, jobId } = await clock()
    const elsewhere = { clientKey: 'elsewhere-00000001', operationId: operation.id, pieceId: 999_999 }
    await expect(startOperation({ ...elsewhere, at: minutesAgo(5) }, bench)).rejects.toMatchObject({
      code: 'not-found',
    })
    await db.job.update({ where: { id: jobId }, data: { status: 'closed', closedAt: new Date() } })
    await expect(start('a-start-0000000004')).rejects.toMatchObject({ code: 'wrong-state' })
    expect(await clocks()).toEqual([])
  })
})

describe('A forgotten clock', () => {
  it('is stopped at the time that is told, with why and by whom in the history', async () => {
    const { start, stop, bench, operation } = await clock()
    await start('forgotten-00000001')
    await stop('forgotten-00000001', 'a-stop-00000000005', minutesAgo(60), 'Went home, the clock ran on')
    await stop('forgotten-00000001', 'a-stop-00000000005', minutesAgo(60), 'Went home, the clock ran on')
    const [entry, ...more] = await db.auditEntry.findMany({ where: { entity: 'JobOperation' } })
    expect(more).toEqual([])
    expect(entry).toMatchObject({
      action: 'stopped a forgotten clock on',
      entityId: String(operation.id),
      actorId: bench.userId,
      detailText: 'Went home, the clock ran on',
    })
  })

  it('of somebody else is stopped in one’s own name', async () => {
    const { start, operation } = await clock()
    const other = await actorWithRole('bench', 'Idris Cole')
    await start('forgotten-00000002')
    const entry = { clientKey: 'a-stop-00000000006', startKey: 'forgotten-00000002', at: minutesAgo(1) }
    await stopOperation(entry, other)
    const [line] = await db.auditEntry.findMany({ where: { entity: 'JobOperation' } })
    expect(line).toMatchObject({
      action: 'stopped the clock of somebody else on',
      entityId: String(operation.id),
      actorId: other.userId,
    })
  })

  it('whose stop fails half-way runs on', async () => {
    const { start, stop } = await clock()
    await start('forgotten-00000003')
    await refuseHistory()
    const stopped = stop('forgotten-00000003', 'a-stop-00000000007', minutesAgo(60), 'Forgot')
    await expect(stopped).rejects.toThrow('history is refused')
    expect((await clocks())[0]?.endedAt).toBeNull()
  })
})
