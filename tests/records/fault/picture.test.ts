import { beforeEach, expect, it } from 'vitest'
import { keepBenchEntry } from '@/lib/records/bend-record/write'
import { readFault } from '@/lib/records/fault/read'
import { openFaultByHand } from '@/lib/records/fault/write'
import { addFaultPicture } from '@/lib/records/file/write'
import { db } from '@/lib/server/db'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { benchPiece } from '../bend-record/bench-piece'

beforeEach(async () => {
  await freshDatabase()
})

/** The first bytes of any JPEG. Source: ISO/IEC 10918-1, B.1.1.3. */
const jpeg = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3])

const photo = {
  kind: 'photo' as const,
  clientKey: 'the-picture-itself-1',
  recordKey: 'the-fault-it-is-of-1',
  name: 'dent.jpg',
  base64: jpeg.toString('base64'),
}

it('a picture from the bench waits for its fault, and is kept once with it', async () => {
  const { piece, bench } = await benchPiece()
  await expect(keepBenchEntry(photo, bench)).rejects.toMatchObject({ code: 'not-found' })
  const opened = {
    kind: 'fault' as const,
    clientKey: photo.recordKey,
    scanCode: piece.scanCode,
    description: 'Dropped: a dent beside bend 1',
  }
  await keepBenchEntry(opened, bench)
  await keepBenchEntry(photo, bench)
  await keepBenchEntry(photo, bench)
  const { id } = await db.nonconformance.findFirstOrThrow()
  expect((await readFault(id))?.photos).toHaveLength(1)
  expect((await readFault(id))?.history.map(({ action }) => action)).toEqual(['opened', 'photographed'])
  expect(await db.storedFile.count({ where: { mediaType: 'image/jpeg' } })).toBe(1)
})

it('a picture from the desk is of the fault that is named, and nothing but a picture', async () => {
  const { jobId, office } = await benchPiece()
  await openFaultByHand({ jobId, pieceId: null, bendPosition: null, description: 'Wrong heat' }, office)
  const { id } = await db.nonconformance.findFirstOrThrow()
  const file = new File([jpeg], '../heat tag.jpg')
  await expect(addFaultPicture({ id: id + 1, file }, office)).rejects.toMatchObject({ code: 'not-found' })
  await expect(
    addFaultPicture({ id, file: new File(['%PDF-1.7'], 'tag.jpg') }, office),
  ).rejects.toMatchObject({ code: 'bad-file' })
  await addFaultPicture({ id, file }, office)
  const kept = await db.storedFile.findFirstOrThrow()
  expect([kept.name, kept.nonconformanceId]).toEqual(['heat tag.jpg', id])
})

it('leaves no picture behind when keeping it fails half-way', async () => {
  const { jobId, office } = await benchPiece()
  await openFaultByHand({ jobId, pieceId: null, bendPosition: null, description: 'Wrong heat' }, office)
  const { id } = await db.nonconformance.findFirstOrThrow()
  await refuseHistory()
  await expect(addFaultPicture({ id, file: new File([jpeg], 'tag.jpg') }, office)).rejects.toThrow()
  expect(await db.storedFile.count()).toBe(0)
})
