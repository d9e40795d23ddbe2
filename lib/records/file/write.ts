import 'server-only'
import { createHash } from 'node:crypto'
import { cleanFileName, fileKinds, mostFileBytes, sniffedKind } from '@/lib/records/file/rules'
import type { FaultPicture, FilePress, PartFileUpload } from '@/lib/records/file/schema'
import { db, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { keepContent } from '@/lib/server/file-store'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/** Keeps a drawing file with a part, byte for byte; what it is, its first bytes say, not its name. */
export async function addPartFile(input: PartFileUpload, actor: Actor): Promise<{ id: number }> {
  const content = new Uint8Array(await input.file.arrayBuffer())
  if (content.length > mostFileBytes) throw new Refused('too-large', 'At most 25 MB', 'file')
  const kind = sniffedKind(content)
  if (!kind) {
    throw new Refused(
      'bad-file',
      'This is not a PDF, PNG, JPEG, DXF or STEP file, whatever its name says. Save it as one of those.',
      'file',
    )
  }
  const name = cleanFileName(input.file.name)
  const sha256 = createHash('sha256').update(content).digest('hex')
  const kept = await keepContent(content, sha256)
  return db.$transaction(async (tx) => {
    // Held, so that the same file sent twice at once meets itself.
    const [part] = await tx.$queryRaw<{ id: number }[]>`
      select id from "Part" where id = ${input.partId} for update`
    if (!part) throw new Refused('not-found', 'There is no such part.')
    const same = await tx.storedFile.findFirst({
      where: { partId: part.id, sha256 },
      select: { name: true },
    })
    if (same) throw new Refused('already-done', `The part has this file already: ${same.name}`, 'file')
    const { id } = await tx.storedFile.create({
      data: {
        name,
        mediaType: fileKinds[kind].mediaType,
        byteCount: content.length,
        sha256,
        ...kept,
        partId: part.id,
        createdById: actor.userId,
      },
      select: { id: true },
    })
    await recordChange(tx, {
      by: actor,
      action: 'attached a file',
      entity: 'Part',
      entityId: part.id,
      detailText: name,
      after: { fileId: id, name, sha256, byteCount: content.length },
    })
    return { id }
  })
}

/** Takes a file off a part. It stays in the database with its content, so that this can be undone. */
export async function detachPartFile(input: FilePress, actor: Actor): Promise<{ id: number }> {
  return db.$transaction(async (tx) => {
    const file = await tx.storedFile.findUnique({
      where: { id: input.id },
      select: { partId: true, name: true, sha256: true },
    })
    if (!file?.partId) throw new Refused('already-done', 'This file was taken off already.')
    await tx.storedFile.update({ where: { id: input.id }, data: { partId: null } })
    await recordChange(tx, {
      by: actor,
      action: 'took a file off',
      entity: 'Part',
      entityId: file.partId,
      detailText: file.name,
      before: { fileId: input.id, name: file.name, sha256: file.sha256 },
    })
    return { id: input.id }
  })
}

/** Puts a file back on the part it was last taken off. */
export async function reattachPartFile(input: FilePress, actor: Actor): Promise<{ id: number }> {
  return db.$transaction(async (tx) => {
    const taken = await tx.auditEntry.findFirst({
      where: { entity: 'Part', action: 'took a file off', before: { path: ['fileId'], equals: input.id } },
      orderBy: { id: 'desc' },
      select: { entityId: true },
    })
    if (!taken) throw new Refused('not-found', 'This file was not taken off a part.')
    const partId = Number(taken.entityId)
    const { count } = await tx.storedFile.updateMany({
      where: { id: input.id, partId: null },
      data: { partId },
    })
    if (count !== 1) throw new Refused('already-done', 'The file is on its part already.')
    await recordChange(tx, {
      by: actor,
      action: 'put a file back',
      entity: 'Part',
      entityId: partId,
      after: { fileId: input.id },
    })
    return { id: input.id }
  })
}

type KeptPicture = { kind: 'jpeg' | 'png'; sha256: string; byteCount: number } & Awaited<
  ReturnType<typeof keepContent>
>

/** A picture's content, where files are kept; before the transaction that names it. */
export async function keepPicture(content: Uint8Array<ArrayBuffer>): Promise<KeptPicture> {
  const kind = sniffedKind(content)
  if (kind !== 'jpeg' && kind !== 'png') {
    throw new Refused('bad-file', 'This is not a JPEG or PNG picture.', 'file')
  }
  const sha256 = createHash('sha256').update(content).digest('hex')
  return { kind, sha256, byteCount: content.length, ...(await keepContent(content, sha256)) }
}

/** Puts a picture to a try or to a fault, in the caller's transaction. The same one again is there already. */
export async function addPicture(
  tx: Tx,
  picture: KeptPicture & { name: string } & ({ bendRecordId: number } | { nonconformanceId: number }),
  actor: Actor,
): Promise<void> {
  const { kind, ...kept } = picture
  const of =
    'bendRecordId' in picture
      ? {
          entity: 'BendRecord' as const,
          id: picture.bendRecordId,
          where: { bendRecordId: picture.bendRecordId },
        }
      : {
          entity: 'Nonconformance' as const,
          id: picture.nonconformanceId,
          where: { nonconformanceId: picture.nonconformanceId },
        }
  const { sha256, byteCount } = kept
  const same = await tx.storedFile.findFirst({ where: { ...of.where, sha256 }, select: { id: true } })
  if (same) return
  const { id } = await tx.storedFile.create({
    data: { ...kept, mediaType: fileKinds[kind].mediaType, createdById: actor.userId },
    select: { id: true },
  })
  await recordChange(tx, {
    by: actor,
    action: 'photographed',
    entity: of.entity,
    entityId: of.id,
    after: { fileId: id, sha256, byteCount },
  })
}

/** Puts a picture to a fault from a desk. */
export async function addFaultPicture(input: FaultPicture, actor: Actor): Promise<{ id: number }> {
  const picture = await keepPicture(new Uint8Array(await input.file.arrayBuffer()))
  const name = cleanFileName(input.file.name)
  await db.$transaction(async (tx) => {
    const fault = await tx.nonconformance.findUnique({ where: { id: input.id }, select: { id: true } })
    if (!fault) throw new Refused('not-found', 'There is no such fault.')
    await addPicture(tx, { ...picture, name, nonconformanceId: fault.id }, actor)
  })
  return { id: input.id }
}
