import type { BenchTyped, CompleteInput, TryInput } from '@/lib/records/bend-record/schema'
import { openJob } from '@/lib/records/job/write'
import { db } from '@/lib/server/db'
import { actorWithRole } from '@/tests/support/actor'
import { bentPart, dueOn } from '../job/bent-part'

/** Nothing read but the look, as the form's schema hands it on. */
export const nothingRead: Omit<CompleteInput, 'kind' | 'clientKey' | 'recordKey'> = {
  loadedAngleDeg: null,
  angleAtPressDeg: null,
  angleFinalDeg: null,
  radiusMm: null,
  widthOutsideMm: null,
  widthMiddleMm: null,
  widthInsideMm: null,
  heightMm: null,
  wallOutsideMm: null,
  wallInsideMm: null,
  look: 'clean',
  dyePenetrant: 'notDone',
  gaugeText: 'protractor 1',
  gaugeUncertaintyDeg: 0.2,
  noteText: '',
}

/** A job of one piece with two bends of 32 and 20 degrees, each plus or minus 1, filled and melted out. */
export async function benchPiece() {
  const part = await bentPart()
  const office = await actorWithRole('office')
  const bench = await actorWithRole('bench')
  const { jobId } = await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, office)
  const piece = await db.piece.findFirstOrThrow({ where: { jobId } })
  const operation = await db.jobOperation.findFirstOrThrow({ where: { jobId, key: 'bend' } })
  const tryAt = (clientKey: string, read: Partial<TryInput> = {}): TryInput => ({
    ...nothingRead,
    kind: 'try',
    clientKey,
    scanCode: piece.scanCode,
    bendPosition: 1,
    targetAtPressDeg: null,
    ...read,
  })
  return { jobId, piece, operation, office, bench, tryAt }
}

/** The same as it leaves the device: text. */
export const typedTry = (scanCode: string, clientKey: string): Extract<BenchTyped, { kind: 'try' }> => ({
  kind: 'try',
  clientKey,
  scanCode,
  bendPosition: 1,
  targetAtPressDeg: '',
  loadedAngleDeg: '',
  angleAtPressDeg: '36.4',
  angleFinalDeg: '32.1',
  radiusMm: '',
  widthOutsideMm: '',
  widthMiddleMm: '',
  widthInsideMm: '',
  heightMm: '',
  wallOutsideMm: '',
  wallInsideMm: '',
  look: 'clean',
  dyePenetrant: 'notDone',
  gaugeText: 'Digital protractor',
  gaugeUncertaintyDeg: '0.2',
  noteText: '',
})
