import 'server-only'
import { createHash } from 'node:crypto'
import { alloyById } from '@/lib/core/materials/alloys'
import { cleanFileName, fileKinds, sniffedKind } from '@/lib/records/file/rules'
import { refusedLeft } from '@/lib/records/stock/rules'
import type {
  AddBars,
  Adjust,
  CertificateUpload,
  Cut,
  LotChange,
  NewLot,
  PiecePress,
  Scrap,
} from '@/lib/records/stock/schema'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { keepContent } from '@/lib/server/file-store'
import { recordChange } from '@/lib/server/history'
import { nextNumber } from '@/lib/server/numbering'
import type { Actor } from '@/lib/server/session'

const next = { version: { increment: 1 } } as const

/** Takes a delivery in: the lot with its heat number, and each bar on the rack. */
export async function receiveLot(
  { bars, ...lot }: NewLot,
  actor: Actor,
): Promise<{ id: number; number: string }> {
  return db.$transaction(async (tx) => {
    await requireMaterial(tx, lot.materialId)
    const number = await nextNumber(tx, 'lot')
    const { id } = await tx.stockLot.create({ data: { ...lot, number }, select: { id: true } })
    await tx.stockPiece.createMany({
      data: bars.flatMap(({ barCount, lengthMm }) =>
        Array.from({ length: barCount }, () => ({ lotId: id, lengthMm })),
      ),
    })
    await recordChange(tx, {
      by: actor,
      action: 'received',
      entity: 'StockLot',
      entityId: id,
      after: { number, ...lot, bars },
    })
    return { id, number }
  })
}

/** What pieces of jobs were cut from keeps its material and size: their papers rest on it. */
export async function changeLot(
  { id, version, ...data }: LotChange,
  actor: Actor,
): Promise<{ id: number; version: number }> {
  return db.$transaction(async (tx) => {
    const before = await tx.stockLot.findUnique({ where: { id } })
    if (!before) throw new Refused('not-found', 'There is no such lot.')
    await requireMaterial(tx, data.materialId)
    const fixed = ['materialId', 'shape', 'widthMm', 'heightMm', 'wallMm', 'heatNumber'] as const
    const moved = fixed.find((key) => data[key] !== before[key])
    if (moved) {
      const cut = await tx.piece.findFirst({
        where: { stockPiece: { lotId: id } },
        select: { job: { select: { number: true } } },
      })
      if (cut) {
        throw new Refused(
          'still-in-use',
          `Pieces of ${cut.job.number} are cut from this lot: its material, size and heat number stay.`,
          moved,
        )
      }
    }
    const { count } = await tx.stockLot.updateMany({ where: { id, version }, data: { ...data, ...next } })
    if (count !== 1) throw changedMeanwhile('lot')
    await recordChange(tx, {
      by: actor,
      action: 'changed',
      entity: 'StockLot',
      entityId: id,
      before,
      after: data,
    })
    return { id, version: version + 1 }
  })
}

export async function addBars(input: AddBars, actor: Actor): Promise<{ count: number }> {
  return db.$transaction(async (tx) => {
    const lot = await tx.stockLot.findUnique({ where: { id: input.lotId }, select: { id: true } })
    if (!lot) throw new Refused('not-found', 'There is no such lot.')
    const { lotId, lengthMm, place, barCount } = input
    await tx.stockPiece.createMany({
      data: Array.from({ length: barCount }, () => ({ lotId, lengthMm, place })),
    })
    await recordChange(tx, {
      by: actor,
      action: 'added bars to',
      entity: 'StockLot',
      entityId: lotId,
      after: { barCount, lengthMm, place },
    })
    return { count: barCount }
  })
}

/** Marks a bar as cut up and puts what is left of it back on the rack, as an offcut of the same lot and heat. */
export async function cutStock(input: Cut, actor: Actor): Promise<{ offcutId: number | null }> {
  return db.$transaction(async (tx) => {
    const bar = await findBar(tx, input)
    const { lengthUnit } = await tx.shop.findUniqueOrThrow({
      where: { id: 1 },
      select: { lengthUnit: true },
    })
    const why = refusedLeft(bar.lengthMm, input.leftMm, lengthUnit)
    if (why) throw new Refused('bad-input', why, 'leftMm')
    await saveBar(tx, input, { usedAt: new Date() })
    const offcut =
      input.leftMm === null
        ? null
        : await tx.stockPiece.create({
            data: {
              lotId: bar.lotId,
              lengthMm: input.leftMm,
              isOffcut: true,
              place: input.place,
              cutFromId: input.id,
            },
            select: { id: true },
          })
    await recordChange(tx, {
      by: actor,
      action: 'cut',
      entity: 'StockPiece',
      entityId: input.id,
      detailText: input.noteText,
      before: { lengthMm: bar.lengthMm },
      after: { leftMm: input.leftMm, offcutId: offcut?.id ?? null },
    })
    return { offcutId: offcut?.id ?? null }
  })
}

export async function adjustStock(input: Adjust, actor: Actor): Promise<{ version: number }> {
  const { lengthMm, place } = input
  return db.$transaction(async (tx) => {
    const bar = await findBar(tx, input)
    await saveBar(tx, input, { lengthMm, place })
    await recordChange(tx, {
      by: actor,
      action: 'adjusted',
      entity: 'StockPiece',
      entityId: input.id,
      detailText: input.noteText,
      before: { lengthMm: bar.lengthMm, place: bar.place },
      after: { lengthMm, place },
    })
    return { version: input.version + 1 }
  })
}

export async function scrapStock(input: Scrap, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const bar = await findBar(tx, input)
    if (bar.reservedForJob) {
      const { number } = bar.reservedForJob
      throw new Refused('still-in-use', `It is reserved for ${number}. Give it back from that job first.`)
    }
    await saveBar(tx, input, { usedAt: new Date() })
    await recordChange(tx, {
      by: actor,
      action: 'scrapped',
      entity: 'StockPiece',
      entityId: input.id,
      detailText: input.noteText,
      before: { lengthMm: bar.lengthMm },
    })
    return { version: input.version + 1 }
  })
}

/** Puts a bar back that was taken off the rack by mistake, while nothing was made of it. */
export async function restoreStock(input: PiecePress, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const bar = await tx.stockPiece.findUnique({
      where: { id: input.id },
      select: {
        usedAt: true,
        cuts: { select: { id: true }, take: 1 },
        pieces: { select: { id: true }, take: 1 },
      },
    })
    if (!bar) throw new Refused('not-found', 'There is no such bar.')
    if (bar.usedAt === null) throw new Refused('already-done', 'It is on the rack already.')
    if (bar.pieces.length > 0) throw new Refused('still-in-use', 'A piece of a job is cut from it.')
    if (bar.cuts.length > 0)
      throw new Refused('still-in-use', 'An offcut of it was put on the rack: adjust that one instead.')
    const { count } = await tx.stockPiece.updateMany({
      where: { id: input.id, version: input.version, usedAt: { not: null } },
      data: { usedAt: null, ...next },
    })
    if (count !== 1) throw changedMeanwhile('bar')
    await recordChange(tx, {
      by: actor,
      action: 'put back',
      entity: 'StockPiece',
      entityId: input.id,
    })
    return { version: input.version + 1 }
  })
}

/** Keeps a lot's certificate, byte for byte; an earlier one stays in the database. */
export async function addCertificate(input: CertificateUpload, actor: Actor): Promise<{ id: number }> {
  const content = new Uint8Array(await input.file.arrayBuffer())
  const kind = sniffedKind(content)
  if (kind === null || !fileKinds[kind].shown) {
    throw new Refused(
      'bad-file',
      'This is not a PDF, PNG or JPEG, whatever its name says. Scan the certificate as one of those.',
      'file',
    )
  }
  const name = cleanFileName(input.file.name)
  const sha256 = createHash('sha256').update(content).digest('hex')
  const kept = await keepContent(content, sha256)
  return db.$transaction(async (tx) => {
    // Held, so that the same file sent twice at once meets itself.
    await tx.$queryRaw`select id from "StockLot" where id = ${input.lotId} for update`
    const lot = await tx.stockLot.findUnique({
      where: { id: input.lotId },
      select: { certificateFileId: true, certificateFile: { select: { sha256: true } } },
    })
    if (!lot) throw new Refused('not-found', 'There is no such lot.')
    if (lot.certificateFile?.sha256 === sha256)
      throw new Refused('already-done', 'This is the certificate that the lot has already.', 'file')
    const { id } = await tx.storedFile.create({
      data: {
        name,
        mediaType: fileKinds[kind].mediaType,
        byteCount: content.length,
        sha256,
        ...kept,
        createdById: actor.userId,
      },
      select: { id: true },
    })
    await tx.stockLot.update({ where: { id: input.lotId }, data: { certificateFileId: id, ...next } })
    await recordChange(tx, {
      by: actor,
      action: 'attached a certificate to',
      entity: 'StockLot',
      entityId: input.lotId,
      detailText: name,
      before: { certificateFileId: lot.certificateFileId },
      after: { certificateFileId: id, name, sha256 },
    })
    return { id }
  })
}

async function requireMaterial(tx: Tx, materialId: string): Promise<void> {
  if (alloyById(materialId)) return
  const own = await tx.materialEntry.findUnique({ where: { id: materialId }, select: { id: true } })
  if (!own) throw new Refused('bad-input', 'Choose a material of the list', 'materialId')
}

async function findBar(tx: Tx, { id }: { id: number }) {
  const bar = await tx.stockPiece.findUnique({
    where: { id },
    select: {
      lotId: true,
      lengthMm: true,
      place: true,
      usedAt: true,
      reservedForJob: { select: { number: true } },
    },
  })
  if (!bar) throw new Refused('not-found', 'There is no such bar.')
  if (bar.usedAt !== null) throw new Refused('already-done', 'This bar is off the rack already.')
  return bar
}

async function saveBar(
  tx: Tx,
  { id, version }: { id: number; version: number },
  data: { usedAt?: Date; lengthMm?: number; place?: string },
): Promise<void> {
  const { count } = await tx.stockPiece.updateMany({
    where: { id, version, usedAt: null },
    data: { ...data, ...next },
  })
  if (count !== 1) throw changedMeanwhile('bar')
}
