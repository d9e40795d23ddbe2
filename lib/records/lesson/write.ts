import 'server-only'
import { learnedTimes, plannedMinutes } from '@/lib/core/cost/learned-times'
import { operationKeys } from '@/lib/core/cost/operation'
import { type AlloyFamily, alloyById } from '@/lib/core/materials/alloys'
import { yieldBelief } from '@/lib/core/statistics/yield-belief'
import { clockedPieces, firstTryPieces, lessonsOf } from '@/lib/records/lesson/rules'
import type { LessonDecision } from '@/lib/records/lesson/schema'
import { amendRates } from '@/lib/records/rates/write'
import type { Prisma, Tx } from '@/lib/server/db'
import { db } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { roleMay } from '@/lib/server/permissions'
import type { Actor } from '@/lib/server/session'

/** Draws the lessons of a job that ends, in the caller's transaction. Those already decided stay as they are. */
export async function drawLessons(
  tx: Tx,
  job: { id: number; method: string; materialId: string; sectionText: string },
): Promise<number> {
  const records = await tx.bendRecord.findMany({
    where: { piece: { jobId: job.id } },
    select: { id: true, tryNumber: true, verdict: true, setup: true },
    orderBy: { id: 'asc' },
  })
  const operations = await tx.jobOperation.findMany({
    where: { jobId: job.id },
    select: { key: true, logs: { select: { pieceId: true, startedAt: true, endedAt: true } } },
    orderBy: { position: 'asc' },
  })
  await tx.lesson.deleteMany({ where: { jobId: job.id, acceptedAt: null, declinedAt: null } })
  const decided = await tx.lesson.findMany({
    where: { jobId: job.id },
    select: { kind: true, bendRecordId: true, operationKey: true },
  })
  const keyOf = (one: { kind: string; bendRecordId: number | null; operationKey: string }) =>
    `${one.kind} ${one.bendRecordId ?? one.operationKey}`
  const known = new Set(decided.map(keyOf))
  const drawn = lessonsOf({ method: job.method, records, operations }).filter((one) => !known.has(keyOf(one)))
  await tx.lesson.createMany({
    data: drawn.map((one) => ({
      ...one,
      jobId: job.id,
      materialId: job.materialId,
      sectionText: job.sectionText,
    })),
  })
  return drawn.length
}

/**
 * Takes in what a job taught, or leaves it out. Springback can be decided again, since each plan reads it afresh; times
 * and yield go into the rates once, where they can be changed by hand.
 */
export async function decideLesson(input: LessonDecision, actor: Actor): Promise<{ count: number }> {
  if (!roleMay(actor.role, 'lesson.accept')) {
    throw new Refused(
      'not-allowed',
      `Your role (${actor.role}) may not decide what the shop learns. Ask the owner.`,
    )
  }
  return db.$transaction(async (tx) => {
    const { accept } = input
    const group = {
      jobId: input.jobId,
      kind: input.kind,
      method: input.method,
      operationKey: input.operationKey,
    }
    const again = input.kind === 'springbackFactor'
    const where: Prisma.LessonWhereInput = {
      ...group,
      ...(accept || !again ? { acceptedAt: null } : {}),
      ...(accept && again ? {} : { declinedAt: null }),
    }
    const { count } = await tx.lesson.updateMany({
      where,
      data: accept
        ? { acceptedAt: new Date(), declinedAt: null }
        : { declinedAt: new Date(), acceptedAt: null },
    })
    if (count === 0) throw new Refused('already-done', 'This was decided already. Look again.')
    if (accept && input.kind === 'operationMinutes') await learnMinutes(tx, input, actor)
    if (accept && input.kind === 'firstTry') await learnYield(tx, input.jobId, actor)
    await recordChange(tx, {
      by: actor,
      action: accept ? 'accepted a lesson of' : 'declined a lesson of',
      entity: 'Job',
      entityId: input.jobId,
      detailText: [input.kind, input.method, input.operationKey].filter(Boolean).join(', '),
      after: { ...group, count },
    })
    return { count }
  })
}

/** The shop's times after this job's clock, on a new sheet of rates. */
async function learnMinutes(tx: Tx, input: LessonDecision, actor: Actor): Promise<void> {
  const operation = await tx.jobOperation.findFirst({
    where: { jobId: input.jobId, key: input.operationKey },
    select: {
      name: true,
      plannedSetUpMinutes: true,
      plannedRunMinutesPerPiece: true,
      logs: { select: { pieceId: true, startedAt: true, endedAt: true } },
      job: {
        select: {
          number: true,
          revision: { select: { materialId: true } },
          pieces: { select: { id: true } },
        },
      },
    },
  })
  const lesson = await tx.lesson.findFirst({
    where: { jobId: input.jobId, kind: 'operationMinutes', operationKey: input.operationKey },
    select: { value: true },
  })
  const key = operationKeys.find((one) => one === input.operationKey)
  if (!operation || !lesson || !key) throw new Refused('not-found', 'The job has no such operation.')
  const entry = await tx.materialEntry.findUnique({
    where: { id: operation.job.revision.materialId },
    select: { data: true },
  })
  const own = (entry?.data as { family?: AlloyFamily } | null | undefined)?.family
  const family = alloyById(operation.job.revision.materialId)?.family ?? own ?? 'aluminium'
  await amendRates(
    tx,
    (rates) => {
      const learned = learnedTimes(rates.times, {
        key,
        family,
        loggedMinutes: lesson.value,
        plannedMinutes: plannedMinutes(
          {
            key,
            setUpMinutes: operation.plannedSetUpMinutes,
            runMinutesPerPiece: operation.plannedRunMinutesPerPiece,
          },
          clockedPieces(operation.logs, operation.job.pieces.length),
          rates.learning,
        ),
      })
      if (!learned) {
        throw new Refused('wrong-state', `“${operation.name}” has no times of its own in the rates to learn.`)
      }
      return {
        rates: { ...rates, times: learned.times },
        reasonText: `${operation.name}: times × ${learned.factor.toFixed(2)} after the clock of ${operation.job.number}`,
      }
    },
    actor,
  )
}

/** The shop's first-pass yield from every piece whose lesson is accepted, on a new sheet of rates. */
async function learnYield(tx: Tx, jobId: number, actor: Actor): Promise<void> {
  const rows = await tx.lesson.findMany({
    where: { kind: 'firstTry', acceptedAt: { not: null }, bendRecordId: { not: null } },
    select: { value: true, bendRecord: { select: { pieceId: true } } },
  })
  const { number } = await tx.job.findUniqueOrThrow({ where: { id: jobId }, select: { number: true } })
  const pieces = firstTryPieces(
    rows.flatMap(({ value, bendRecord }) =>
      bendRecord ? [{ pieceId: bendRecord.pieceId, good: value === 1 }] : [],
    ),
  )
  const belief = yieldBelief(pieces.goodCount, pieces.badCount)
  await amendRates(
    tx,
    (rates) => ({
      rates: { ...rates, firstPassYieldFraction: Number(belief.meanFraction.toFixed(3)) },
      reasonText: `Good the first time: ${pieces.goodCount} of ${pieces.goodCount + pieces.badCount} pieces, after ${number}`,
    }),
    actor,
  )
}
