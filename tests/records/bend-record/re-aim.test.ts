import { beforeEach, describe, expect, it } from 'vitest'
import { unsentReadings } from '@/app/bench/[code]/unsent-readings'
import type { QueuedEntry } from '@/app/bench/queue'
import { reAim } from '@/lib/core/statistics/re-aim'
import { readAim } from '@/lib/records/bend-record/read'
import { logTry } from '@/lib/records/bend-record/write'
import type { JobPlan } from '@/lib/records/job/rules'
import { db } from '@/lib/server/db'
import { freshDatabase } from '@/tests/support/database'
import { benchPiece, typedTry } from './bench-piece'

it('an aim is corrected by what was measured, by hand', () => {
  const line = {
    belief: { mean: 1, sd: 0.15 },
    loadedDeg: 36,
    atPressDeg: 32,
    loadedPerFactorDeg: 4,
    atPressPerFactorDeg: 0,
    modelSpringbackDeg: 4,
    modelSpringbackPerDeg: 0.1,
    scatterSd: 0.03,
  }
  // At 37 the model springs back 4.1; from 37 to 32 are 5: factor 1.219512, sd sqrt((0.1 / 4.1)^2 + 0.03^2) = 0.038677.
  // Weights 1 / 0.15^2 = 44.4444 and 1 / 0.038677^2 = 668.49; mean (44.4444 + 668.49 * 1.219512) / 712.93 = 1.205827.
  const after = reAim(line, [{ loadedAngleDeg: 37, finalAngleDeg: 32, gaugeSdDeg: 0.1 }])
  expect(after.factor).toBeCloseTo(1.2058, 3)
  expect(after.loadedDeg).toBeCloseTo(36.823, 2)
  expect(reAim(line, [])).toEqual({ factor: 1, loadedDeg: 36, atPressDeg: 32 })
})

const queued = (entry: QueuedEntry['entry'], refused = false): QueuedEntry => ({
  key: entry.clientKey,
  order: 1,
  userId: 1,
  madeAt: '2026-11-25T15:00:00Z',
  label: 'the try',
  entry,
  refusal: refused ? { message: 'no', fields: {} } : null,
})

describe('What a device holds of a bend', () => {
  const code = 'code-of-the-piece-01'
  const of = { codes: [code], position: 1, melts: true }
  const whole = { ...typedTry(code, 'a-whole-try-0001'), loadedAngleDeg: '36.4', angleFinalDeg: '32d6m' }

  it('is learned from once both angles are read', () => {
    expect(unsentReadings([queued(whole)], of)).toEqual([
      { loadedAngleDeg: 36.4, finalAngleDeg: 32.1, gaugeSdDeg: 0.1 },
    ])
    expect(unsentReadings([queued({ ...whole, angleFinalDeg: '' })], of)).toEqual([])
    expect(unsentReadings([queued({ ...whole, angleFinalDeg: '' })], { ...of, melts: false })).toHaveLength(1)
  })

  it('is left alone where it is refused, torn, of another bend or of another job', () => {
    expect(unsentReadings([queued(whole, true)], of)).toEqual([])
    expect(unsentReadings([queued({ ...whole, look: 'cracked' })], of)).toEqual([])
    expect(unsentReadings([queued(whole)], { ...of, position: 2 })).toEqual([])
    expect(unsentReadings([queued(whole)], { ...of, codes: ['code-of-another-one'] })).toEqual([])
  })
})

describe('The aim a device corrects alone', () => {
  beforeEach(async () => {
    await freshDatabase()
  })

  it('is within a tenth of a degree of what the shop answers once it has the same try', async () => {
    const { jobId, tryAt, bench } = await benchPiece()
    const { plan } = await db.job.findUniqueOrThrow({ where: { id: jobId } })
    const before = await readAim(plan as unknown as JobPlan, jobId, 1)
    if (!before?.line) throw new Error('the bend has no aim')
    const loadedAngleDeg = Number((before.now.loadedDeg + 0.4).toFixed(1))
    const alone = reAim(before.line, [{ loadedAngleDeg, finalAngleDeg: 31.3, gaugeSdDeg: 0.1 }])
    await logTry(tryAt('the-same-try-sent', { loadedAngleDeg, angleFinalDeg: 31.3 }), bench)
    const after = await readAim(plan as unknown as JobPlan, jobId, 1)
    // The try moves the aim by far more than the two may differ by.
    expect(Math.abs((after?.now.loadedDeg ?? 0) - before.now.loadedDeg)).toBeGreaterThan(0.3)
    expect(Math.abs(alone.loadedDeg - (after?.now.loadedDeg ?? 0))).toBeLessThan(0.1)
    expect(Math.abs(alone.atPressDeg - (after?.now.atPressDeg ?? 0))).toBeLessThan(0.1)
  })
})
