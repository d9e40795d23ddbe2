import 'server-only'
import { alloyById } from '@/lib/core/materials/alloys'
import { nextRevisionLetter, revisionDifferences } from '@/lib/records/part/rules'
import type { NewPart, PartChange, PartPress } from '@/lib/records/part/schema'
import { db, type Prisma, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import { nextNumber } from '@/lib/server/numbering'
import type { Actor } from '@/lib/server/session'

export type SavedPart = { id: number; number: string; letter: string; revisionId: number; version: number }

export async function addPart(input: NewPart, actor: Actor): Promise<SavedPart> {
  return db.$transaction(async (tx) => {
    await requireChoices(tx, input)
    const number = await nextNumber(tx, 'part')
    const part = await tx.part.create({
      data: { number, ...identityOf(input), revisions: { create: { letter: 'A', ...revisionOf(input) } } },
      select: { id: true, version: true, revisions: { select: { id: true } } },
    })
    await recordChange(tx, {
      by: actor,
      action: 'added',
      entity: 'Part',
      entityId: part.id,
      detailText: `${number} ${input.name}`,
      after: input,
    })
    return { id: part.id, number, letter: 'A', revisionId: part.revisions[0]?.id ?? 0, version: part.version }
  })
}

/**
 * Saves a part over the version it was opened at. A revision that is not frozen yet is changed; of a frozen one the next
 * is made, if anything but the part's name changed.
 */
export async function changePart(input: PartChange, actor: Actor): Promise<SavedPart> {
  return db.$transaction(async (tx) => {
    await requireChoices(tx, input, input.id)
    const { count } = await tx.part.updateMany({
      where: { id: input.id, version: input.version },
      data: { ...identityOf(input), version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('part')
    const before = await tx.partRevision.findFirstOrThrow({
      where: { partId: input.id },
      orderBy: { id: 'desc' },
      include: { bends: { orderBy: { position: 'asc' } }, part: { select: { number: true } } },
    })
    const { number } = before.part
    const after = { number, id: input.id, version: input.version + 1 }
    const wasThat = revisionInput(before)
    if (revisionDifferences(wasThat, input, 'mm').length === 0) {
      await recordChange(tx, {
        by: actor,
        action: 'renamed',
        entity: 'Part',
        entityId: input.id,
        after: identityOf(input),
      })
      return { ...after, letter: before.letter, revisionId: before.id }
    }
    const saved = before.frozenAt
      ? await makeNextRevision(tx, input, before)
      : await overwriteRevision(tx, input, before)
    await recordChange(tx, {
      by: actor,
      action: before.frozenAt ? `made revision ${saved.letter}` : `changed revision ${saved.letter}`,
      entity: 'Part',
      entityId: input.id,
      before: wasThat,
      after: input,
    })
    return { ...after, letter: saved.letter, revisionId: saved.id }
  })
}

async function overwriteRevision(tx: Tx, input: PartChange, before: { id: number; letter: string }) {
  const { bends, ...revision } = revisionOf(input)
  const { count } = await tx.partRevision.updateMany({
    where: { id: before.id, frozenAt: null },
    data: { ...revision, version: { increment: 1 } },
  })
  if (count !== 1) throw changedMeanwhile('part')
  await tx.bend.deleteMany({ where: { revisionId: before.id } })
  await tx.bend.createMany({ data: bends.create.map((bend) => ({ ...bend, revisionId: before.id })) })
  return before
}

/** The next revision starts with the set-up of the one before: what was chosen for it still stands in the shop. */
async function makeNextRevision(tx: Tx, input: PartChange, before: { id: number; letter: string }) {
  const setup = await tx.setup.findUnique({
    where: { revisionId: before.id },
    select: { support: true, pressId: true, supportSpanMm: true, dieId: true, strapId: true, fillerId: true },
  })
  return tx.partRevision.create({
    data: {
      partId: input.id,
      letter: nextRevisionLetter(before.letter),
      ...revisionOf(input),
      ...(setup && { setup: { create: setup } }),
    },
    select: { id: true, letter: true },
  })
}

/** Freezes a revision for good, inside the transaction that quotes it or puts it on a job. Once frozen it stays as it was. */
export async function freezeRevision(
  tx: Tx,
  revisionId: number,
  by: Actor | string,
  why: string,
): Promise<void> {
  const { count } = await tx.partRevision.updateMany({
    where: { id: revisionId, frozenAt: null },
    data: { frozenAt: new Date(), version: { increment: 1 } },
  })
  if (count === 0) return
  await recordChange(tx, {
    by,
    action: 'froze',
    entity: 'PartRevision',
    entityId: revisionId,
    detailText: why,
  })
}

export async function archivePart(input: PartPress, actor: Actor) {
  return db.$transaction((tx) => setArchived(tx, input, actor, new Date()))
}

export async function restorePart(input: PartPress, actor: Actor) {
  return db.$transaction((tx) => setArchived(tx, input, actor, null))
}

async function setArchived(tx: Tx, input: PartPress, actor: Actor, archivedAt: Date | null) {
  const { count } = await tx.part.updateMany({
    where: { id: input.id, version: input.version },
    data: { archivedAt, version: { increment: 1 } },
  })
  if (count !== 1) throw changedMeanwhile('part')
  await recordChange(tx, {
    by: actor,
    action: archivedAt === null ? 'brought back' : 'put away',
    entity: 'Part',
    entityId: input.id,
  })
  return { id: input.id, version: input.version + 1 }
}

/** The customer and the material a form names must be there to choose. */
async function requireChoices(tx: Tx, input: NewPart, partId?: number): Promise<void> {
  const customer = await tx.customer.findUnique({
    where: { id: input.customerId },
    select: { archivedAt: true, parts: { where: { id: partId ?? 0 }, select: { id: true } } },
  })
  if (!customer || (customer.archivedAt && customer.parts.length === 0)) {
    throw new Refused('bad-input', 'Choose a customer of the list', 'customerId')
  }
  if (alloyById(input.materialId)) return
  const own = await tx.materialEntry.findUnique({ where: { id: input.materialId }, select: { id: true } })
  if (!own) throw new Refused('bad-input', 'Choose a material of the list', 'materialId')
}

function identityOf({ customerId, name, customerRef }: NewPart) {
  return { customerId, name, customerRef }
}

function revisionOf(input: NewPart) {
  return {
    shape: input.shape,
    widthMm: input.widthMm,
    heightMm: input.heightMm,
    wallMm: input.wallMm,
    cornerRadiusMm: input.cornerRadiusMm,
    materialId: input.materialId,
    straightAfterMm: input.straightAfterMm,
    startCut: asJson(input.startCut),
    endCut: asJson(input.endCut),
    angleToleranceDeg: input.angleToleranceDeg,
    lengthToleranceMm: input.lengthToleranceMm,
    radiusToleranceMm: input.radiusToleranceMm,
    sectionToleranceFraction: input.sectionToleranceFraction,
    generalTolerance: input.generalTolerance,
    weldedAfter: input.weldedAfter,
    couldHurt: input.couldHurt,
    notesText: input.notesText,
    typicalQuantity: input.typicalQuantity,
    bends: { create: input.bends.map((bend, index) => ({ ...bend, position: index + 1 })) },
  }
}

type RevisionRow = Prisma.PartRevisionGetPayload<{ include: { bends: true } }>

function revisionInput(row: RevisionRow) {
  return {
    ...row,
    startCut: row.startCut as NewPart['startCut'],
    endCut: row.endCut as NewPart['endCut'],
  }
}
