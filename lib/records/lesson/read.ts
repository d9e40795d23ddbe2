import 'server-only'
import type { LearnedFactor } from '@/lib/core/statistics/springback-factor'
import { type FactorEvidence, factorFrom } from '@/lib/records/lesson/rules'
import { db, type Tx } from '@/lib/server/db'

type KeptSetup = { observed?: { value: number; sd: number } | null }

/** What the accepted lessons of a material say, for every tube and way of holding it. */
export async function readAcceptedEvidence(materialId: string): Promise<FactorEvidence[]> {
  const lessons = await db.lesson.findMany({
    where: { kind: 'springbackFactor', materialId, acceptedAt: { not: null } },
    select: { sectionText: true, method: true, value: true, bendRecord: { select: { setup: true } } },
    orderBy: { id: 'desc' },
    take: mostCounted,
  })
  return lessons.map(({ bendRecord, ...lesson }) => ({
    ...lesson,
    sd: (bendRecord?.setup as KeptSetup | null | undefined)?.observed?.sd ?? null,
  }))
}

/** The latest lessons count, so that a plan takes as long to make in ten years as today. */
const mostCounted = 500

/**
 * The factor to plan with: accepted lessons of the material, and the tries of one job that is not over yet.
 * `asIfAccepted`: what it would be with the undecided lessons of that job.
 */
export async function readLearnedFactor(
  tx: Tx | typeof db,
  of: { materialId: string; sectionText: string; method: string; jobId?: number; asIfAccepted?: number },
): Promise<LearnedFactor> {
  const lessons = await tx.lesson.findMany({
    where: {
      kind: 'springbackFactor',
      materialId: of.materialId,
      OR: [
        { acceptedAt: { not: null } },
        ...(of.asIfAccepted === undefined ? [] : [{ jobId: of.asIfAccepted, declinedAt: null }]),
      ],
    },
    select: { sectionText: true, method: true, value: true, bendRecordId: true },
    orderBy: { id: 'desc' },
    take: mostCounted,
  })
  const known = lessons.flatMap(({ bendRecordId }) => (bendRecordId === null ? [] : [bendRecordId]))
  // Two questions, each with its index: asked as one, with OR, every try of the shop was read.
  const [taught, tried] = [
    await tx.bendRecord.findMany({ where: { id: { in: known } }, select: { id: true, setup: true } }),
    of.jobId === undefined
      ? []
      : await tx.bendRecord.findMany({
          where: {
            piece: { jobId: of.jobId },
            verdict: { not: 'waiting' },
            lessons: { none: { kind: 'springbackFactor', declinedAt: { not: null } } },
          },
          select: { id: true, setup: true },
          take: 1000,
        }),
  ]
  const records = [...taught, ...tried]
  const observed = new Map(
    records.map(({ id, setup }) => [id, (setup as KeptSetup | null)?.observed ?? null]),
  )
  const evidence: FactorEvidence[] = lessons.map((lesson) => ({
    sectionText: lesson.sectionText,
    method: lesson.method,
    value: lesson.value,
    sd: (lesson.bendRecordId === null ? null : observed.get(lesson.bendRecordId)?.sd) ?? null,
  }))
  const counted = new Set(known)
  for (const [id, one] of observed) {
    if (!counted.has(id) && one) {
      evidence.push({ sectionText: of.sectionText, method: of.method, value: one.value, sd: one.sd })
    }
  }
  return factorFrom(evidence, of)
}

const mostLessons = 20_000

/** Every lesson with the job, the bend and the planned minutes behind it; all the lessons screen is made from. */
export async function readLessons() {
  return db.lesson.findMany({
    orderBy: { id: 'asc' },
    take: mostLessons,
    select: {
      kind: true,
      materialId: true,
      sectionText: true,
      method: true,
      operationKey: true,
      value: true,
      at: true,
      acceptedAt: true,
      declinedAt: true,
      bendRecord: { select: { pieceId: true } },
      job: { select: { id: true, number: true } },
    },
  })
}

/** Operations of jobs with their clocks: what their logged minutes are held against. */
export async function readClockedOperations(jobIds: readonly number[]) {
  return db.jobOperation.findMany({
    where: { jobId: { in: [...jobIds] } },
    select: {
      jobId: true,
      key: true,
      name: true,
      plannedSetUpMinutes: true,
      plannedRunMinutesPerPiece: true,
      logs: { select: { pieceId: true, startedAt: true, endedAt: true } },
      job: { select: { _count: { select: { pieces: true } } } },
    },
  })
}

/** The factor that is planned with for each of these tubes. */
export function readFactors(tubes: readonly { materialId: string; sectionText: string; method: string }[]) {
  return Promise.all(tubes.map((tube) => readLearnedFactor(db, tube)))
}

/** What accepting a job's bends would do to the factor of each tube. */
export function readFactorMoves(
  groups: readonly { materialId: string; sectionText: string; method: string; job: { id: number } }[],
) {
  return Promise.all(
    groups.map(async ({ materialId, sectionText, method, job }) => {
      const tube = { materialId, sectionText, method }
      const [now, then] = await Promise.all([
        readLearnedFactor(db, tube),
        readLearnedFactor(db, { ...tube, asIfAccepted: job.id }),
      ])
      return { jobId: job.id, method, now, then }
    }),
  )
}
