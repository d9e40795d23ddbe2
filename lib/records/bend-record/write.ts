import 'server-only'
import {
  aimAt,
  type BendWanted,
  bendState,
  factorOfTry,
  judgeTry,
  newTryRefusal,
  type TryReadings,
  type TryReason,
  type TryVerdict,
} from '@/lib/records/bend-record/rules'
import type { BenchEntry, CompleteInput, TryInput } from '@/lib/records/bend-record/schema'
import { openFault } from '@/lib/records/fault/write'
import { addPicture, keepPicture } from '@/lib/records/file/write'
import type { JobPlan } from '@/lib/records/job/rules'
import { readLearnedFactor } from '@/lib/records/lesson/read'
import { startOperation, stopOperation } from '@/lib/records/operation/write'
import { db, type Prisma, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'

/** What the bench is told at once. */
export type TryOutcome = {
  recordId: number
  tryNumber: number
  verdict: TryVerdict
  reasons: TryReason[]
  faultNumber: string | null
  /** The loaded angle to work to next, before and after what this try taught; null where there is no spec. */
  next: { beforeDeg: number; afterDeg: number; factorBefore: number; factorAfter: number } | null
}

export type BenchOutcome = { kind: BenchEntry['kind']; tried: TryOutcome | null; number: string | null }

/** Keeps one entry of the bench. Sent twice it is kept once, and answers the same. */
export async function keepBenchEntry(entry: BenchEntry, actor: Actor): Promise<BenchOutcome> {
  const nothing = { kind: entry.kind, tried: null, number: null }
  switch (entry.kind) {
    case 'try':
      return { ...nothing, tried: await logTry(entry, actor) }
    case 'complete':
      return { ...nothing, tried: await completeTry(entry, actor) }
    case 'start':
      await startOperation({ ...entry, at: new Date(entry.at) }, actor)
      return nothing
    case 'stop':
      await stopOperation({ ...entry, at: new Date(entry.at) }, actor)
      return nothing
    case 'fault':
      return { ...nothing, number: await openBenchFault(entry, actor) }
    case 'photo':
      await keepPhoto(entry, actor)
      return nothing
  }
}

/** Logs a try at one bend: numbered, judged, a fault opened with one that failed. */
export async function logTry(input: TryInput, actor: Actor): Promise<TryOutcome> {
  // A device out of reach sends again what was kept long ago: that needs no lock. Two at once meet in the transaction.
  const sentBefore = await db.bendRecord.findUnique({
    where: { clientKey: input.clientKey },
    select: { ...recordColumns, piece: { select: pieceColumns } },
  })
  if (sentBefore) return outcomeOf({ piece: sentBefore.piece, record: sentBefore })
  const kept = await db.$transaction(async (tx) => {
    const piece = await lockPiece(tx, { scanCode: input.scanCode })
    const before = await tx.bendRecord.findUnique({
      where: { clientKey: input.clientKey },
      select: recordColumns,
    })
    if (before) return { piece, record: before }
    requireOpenPiece(piece)
    const wanted = wantedOf(piece, input.bendPosition)
    const tries = await tx.bendRecord.findMany({
      where: { pieceId: piece.id, bendPosition: input.bendPosition },
      select: {
        bendPosition: true,
        tryNumber: true,
        verdict: true,
        faults: { select: { disposition: true } },
      },
      orderBy: { tryNumber: 'asc' },
    })
    const refusal = newTryRefusal(bendState(tries, input.bendPosition))
    if (refusal) throw new Refused('wrong-state', refusal)
    const plan = planOf(piece)
    const read = readingsOf(plan, input)
    const judged = judgeTry(plan, wanted, read)
    const record = await tx.bendRecord.create({
      data: {
        ...read,
        pieceId: piece.id,
        bendPosition: input.bendPosition,
        tryNumber: (tries.at(-1)?.tryNumber ?? 0) + 1,
        byId: actor.userId,
        targetAtPressDeg: input.targetAtPressDeg,
        gaugeText: input.gaugeText,
        noteText: input.noteText,
        verdict: judged.verdict,
        reasons: asJson(judged.reasons),
        setup: asJson(setupOf(piece, input.bendPosition, read, judged.ruleText, null)),
        clientKey: input.clientKey,
      },
      select: recordColumns,
    })
    await noteTry(tx, { piece, record, position: input.bendPosition, action: 'logged a try at' }, actor)
    return { piece, record: await recordWithFault(tx, record.id) }
  })
  return outcomeOf(kept)
}

/** Completes a try that waited, most often for its melt-out. */
export async function completeTry(input: CompleteInput, actor: Actor): Promise<TryOutcome> {
  const kept = await db.$transaction(async (tx) => {
    const found = await tx.bendRecord.findUnique({
      where: { clientKey: input.recordKey },
      select: { id: true, pieceId: true, bendPosition: true },
    })
    if (!found) {
      throw new Refused(
        'not-found',
        'The try that this completes has not arrived yet. It is kept and sent again.',
      )
    }
    const piece = await lockPiece(tx, { id: found.pieceId })
    const before = await recordWithFault(tx, found.id)
    if ((before.setup as KeptSetup).completedKey === input.clientKey) return { piece, record: before }
    if (before.verdict !== 'waiting') {
      throw new Refused('already-done', 'This try is judged already and never changes. Log a new one.')
    }
    requireOpenPiece(piece)
    const plan = planOf(piece)
    const read = readingsOf(plan, input)
    const judged = judgeTry(plan, wantedOf(piece, found.bendPosition), read)
    const record = await tx.bendRecord.update({
      where: { id: found.id },
      data: {
        ...read,
        gaugeText: input.gaugeText,
        noteText: input.noteText,
        verdict: judged.verdict,
        reasons: asJson(judged.reasons),
        setup: asJson(setupOf(piece, found.bendPosition, read, judged.ruleText, input.clientKey)),
      },
      select: recordColumns,
    })
    await noteTry(tx, { piece, record, position: found.bendPosition, action: 'completed a try at' }, actor)
    return { piece, record: await recordWithFault(tx, record.id) }
  })
  return outcomeOf(kept)
}

const recordColumns = {
  id: true,
  bendPosition: true,
  tryNumber: true,
  verdict: true,
  reasons: true,
  setup: true,
  faults: { select: { number: true }, orderBy: { id: 'asc' }, take: 1 },
} as const satisfies Prisma.BendRecordSelect

const pieceColumns = {
  id: true,
  number: true,
  status: true,
  job: {
    select: {
      id: true,
      number: true,
      status: true,
      travellerIssue: true,
      plan: true,
      revision: {
        select: {
          shape: true,
          widthMm: true,
          heightMm: true,
          bends: { select: { position: true, angleDeg: true, centrelineRadiusMm: true } },
        },
      },
    },
  },
} as const satisfies Prisma.PieceSelect

type KeptRecord = Prisma.BendRecordGetPayload<{ select: typeof recordColumns }>
type KeptPiece = Prisma.PieceGetPayload<{ select: typeof pieceColumns }>
type KeptSetup = { completedKey?: string | null; observed?: { value: number; sd: number } | null }

/** The piece, its row held until the transaction ends: two tries at once are numbered one after the other. */
async function lockPiece(tx: Tx, where: { scanCode: string } | { id: number }): Promise<KeptPiece> {
  const [piece] =
    'id' in where
      ? await tx.$queryRaw<{ id: number }[]>`select id from "Piece" where id = ${where.id} for update`
      : await tx.$queryRaw<
          { id: number }[]
        >`select id from "Piece" where "scanCode" = ${where.scanCode} for update`
  if (!piece) throw new Refused('not-found', 'No piece has this code. Is the traveller an old one?')
  return tx.piece.findUniqueOrThrow({ where: { id: piece.id }, select: pieceColumns })
}

function requireOpenPiece(piece: KeptPiece): void {
  if (piece.job.status !== 'open')
    throw new Refused('wrong-state', `Job ${piece.job.number} is ${piece.job.status}.`)
  if (piece.status !== 'open') {
    throw new Refused('wrong-state', `Piece ${piece.number} is ${piece.status}; no more is logged on it.`)
  }
}

function planOf(piece: KeptPiece): JobPlan {
  return piece.job.plan as unknown as JobPlan
}

function wantedOf(piece: KeptPiece, position: number): BendWanted {
  const { shape, widthMm, heightMm, bends } = piece.job.revision
  const bend = bends.find((one) => one.position === position)
  if (!bend) throw new Refused('not-found', `The part has no bend ${position}.`, 'bendPosition')
  return { angleDeg: bend.angleDeg, radiusMm: bend.centrelineRadiusMm, widthMm, heightMm, shape }
}

/** The readings alone. Where nothing is melted out the angle at the press is the final one. */
function readingsOf(plan: JobPlan, input: TryInput | CompleteInput): TryReadings {
  const final = plan.method.startsWith('low-melt')
    ? input.angleFinalDeg
    : (input.angleFinalDeg ?? input.angleAtPressDeg)
  return {
    loadedAngleDeg: input.loadedAngleDeg,
    angleAtPressDeg: input.angleAtPressDeg,
    angleFinalDeg: final,
    radiusMm: input.radiusMm,
    widthOutsideMm: input.widthOutsideMm,
    widthMiddleMm: input.widthMiddleMm,
    widthInsideMm: input.widthInsideMm,
    heightMm: input.heightMm,
    wallOutsideMm: input.wallOutsideMm,
    wallInsideMm: input.wallInsideMm,
    look: input.look,
    dyePenetrant: input.dyePenetrant,
    gaugeUncertaintyDeg: input.gaugeUncertaintyDeg,
  }
}

/** The set-up the try was made with, and what factor it showed: stays with the try for ever. */
function setupOf(
  piece: KeptPiece,
  position: number,
  read: TryReadings,
  ruleText: string,
  completedKey: string | null,
) {
  const plan = planOf(piece)
  const { setUp } = plan
  return {
    travellerIssue: piece.job.travellerIssue,
    method: plan.method,
    press: setUp?.press.shopNumber ?? '',
    supportSpanMm: setUp?.supportSpanMm ?? null,
    die: setUp?.die?.shopNumber ?? '',
    strap: setUp?.strap?.shopNumber ?? '',
    filler: setUp?.filler?.shopNumber ?? '',
    fillerLot: setUp?.filler?.lotText ?? '',
    plannedFactor: plan.factor.value,
    observed: factorOfTry(plan, position, read),
    ruleText,
    completedKey,
  }
}

async function noteTry(
  tx: Tx,
  tried: { piece: KeptPiece; record: KeptRecord; position: number; action: string },
  actor: Actor,
): Promise<void> {
  const { piece, record, position } = tried
  const where = `bend ${position} of piece ${piece.number}, try ${record.tryNumber}`
  await recordChange(tx, {
    by: actor,
    action: tried.action,
    entity: 'BendRecord',
    entityId: record.id,
    detailText: `${piece.job.number}: ${where}: ${record.verdict}`,
    after: { verdict: record.verdict, reasons: record.reasons },
  })
  if (record.verdict !== 'fail') return
  const failed = (record.reasons as unknown as TryReason[]).filter(({ verdict }) => verdict === 'fail')
  const why = failed.map(({ text }) => text.replace(/^fail: /, '')).join('; ')
  await openFault(
    tx,
    {
      jobId: piece.job.id,
      pieceId: piece.id,
      bendRecordId: record.id,
      description: `Bend ${position}, try ${record.tryNumber}: ${why}`,
    },
    actor,
  )
}

function recordWithFault(tx: Tx, id: number): Promise<KeptRecord> {
  return tx.bendRecord.findUniqueOrThrow({ where: { id }, select: recordColumns })
}

/** What was kept, and the next target: reckoned after the transaction, from everything the job has taught by now. */
async function outcomeOf({ piece, record }: { piece: KeptPiece; record: KeptRecord }): Promise<TryOutcome> {
  const plan = planOf(piece)
  const learned = await readLearnedFactor(db, {
    materialId: plan.materialId,
    sectionText: plan.sectionText,
    method: plan.method,
    jobId: piece.job.id,
  })
  const before = aimAt(plan, record.bendPosition, plan.factor.value)
  const after = aimAt(plan, record.bendPosition, learned.mean)
  return {
    recordId: record.id,
    tryNumber: record.tryNumber,
    verdict: record.verdict,
    reasons: record.reasons as unknown as TryReason[],
    faultNumber: record.faults[0]?.number ?? null,
    next:
      before && after
        ? {
            beforeDeg: before.loadedDeg,
            afterDeg: after.loadedDeg,
            factorBefore: plan.factor.value,
            factorAfter: learned.mean,
          }
        : null,
  }
}

async function openBenchFault(entry: Extract<BenchEntry, { kind: 'fault' }>, actor: Actor): Promise<string> {
  return db.$transaction(async (tx) => {
    const piece = await lockPiece(tx, { scanCode: entry.scanCode })
    // The key is kept in the audit line of the opening, where a second sending finds it.
    const known = await tx.auditEntry.findFirst({
      where: { entity: 'Piece', entityId: String(piece.id), action: `sent ${entry.clientKey}` },
      select: { detailText: true },
    })
    if (known) return known.detailText
    requireOpenPiece(piece)
    const { number } = await openFault(
      tx,
      { jobId: piece.job.id, pieceId: piece.id, bendRecordId: null, description: entry.description },
      actor,
    )
    await recordChange(tx, {
      by: actor,
      action: `sent ${entry.clientKey}`,
      entity: 'Piece',
      entityId: piece.id,
      detailText: number,
    })
    return number
  })
}

async function keepPhoto(entry: Extract<BenchEntry, { kind: 'photo' }>, actor: Actor): Promise<void> {
  const picture = await keepPicture(new Uint8Array(Buffer.from(entry.base64, 'base64')))
  const name = entry.name.replace(/[^\w. -]/g, '_') || 'bend.jpg'
  await db.$transaction(async (tx) => {
    const record = await tx.bendRecord.findUnique({
      where: { clientKey: entry.recordKey },
      select: { id: true, pieceId: true },
    })
    if (record) {
      await lockPiece(tx, { id: record.pieceId })
      await addPicture(tx, { ...picture, name, bendRecordId: record.id }, actor)
      return
    }
    const sent = await tx.auditEntry.findFirst({
      where: { entity: 'Piece', action: `sent ${entry.recordKey}` },
      select: { entityId: true, detailText: true },
    })
    const fault =
      sent &&
      (await tx.nonconformance.findUnique({ where: { number: sent.detailText }, select: { id: true } }))
    if (!fault) {
      throw new Refused('not-found', 'What this picture is of has not arrived yet. It is sent again.')
    }
    await lockPiece(tx, { id: Number(sent.entityId) })
    await addPicture(tx, { ...picture, name, nonconformanceId: fault.id }, actor)
  })
}
