import 'server-only'
import type { JobPlan } from '@/lib/records/job/rules'
import type { JobPress } from '@/lib/records/job/schema'
import { undone } from '@/lib/records/job-end/rules'
import type { CancelJob, CloseJob } from '@/lib/records/job-end/schema'
import { drawLessons } from '@/lib/records/lesson/write'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/** Closes a job, gives back the stock it did not cut and draws what it taught. Past something undone only with a reason. */
export async function closeJob(
  input: CloseJob,
  actor: Actor,
): Promise<{ version: number; lessonCount: number }> {
  return db.$transaction(async (tx) => {
    const job = await lockOpenJob(tx, input.id)
    const left = undone({
      pieces: job.pieces,
      faults: job.faults,
      runningClocks: job.operations.flatMap(({ name, logs }) =>
        logs.map(({ by }) => ({ operation: name, by: by.name })),
      ),
    })
    if (left.length > 0 && input.whyText.length < 3) {
      throw new Refused('wrong-state', `${left.join(' ')} Say why it is closed all the same.`, 'whyText')
    }
    await endJob(tx, input, { status: 'closed', endReason: left.length > 0 ? input.whyText : '' })
    const plan = job.plan as unknown as JobPlan
    const lessonCount = await drawLessons(tx, {
      id: input.id,
      method: plan.method,
      materialId: plan.materialId,
      sectionText: plan.sectionText,
    })
    await recordChange(tx, {
      by: actor,
      action: 'closed',
      entity: 'Job',
      entityId: input.id,
      detailText: [job.number, input.whyText].filter(Boolean).join(': '),
      before: { status: 'open' },
      after: { status: 'closed', undone: left, lessonCount },
    })
    return { version: input.version + 1, lessonCount }
  })
}

/** Cancels a job of which nothing was released yet; what it reserved and did not cut goes back to the rack. */
export async function cancelJob(input: CancelJob, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const job = await lockOpenJob(tx, input.id)
    if (job.pieces.some(({ status }) => status === 'released')) {
      throw new Refused('wrong-state', 'Pieces of it are released already: close it instead, and say why.')
    }
    await endJob(tx, input, { status: 'cancelled', endReason: input.whyText })
    await recordChange(tx, {
      by: actor,
      action: 'cancelled',
      entity: 'Job',
      entityId: input.id,
      detailText: `${job.number}: ${input.whyText}`,
      before: { status: 'open' },
      after: { status: 'cancelled' },
    })
    return { version: input.version + 1 }
  })
}

/** Opens an ended job again. Lessons nobody has decided about are drawn afresh when it ends. */
export async function reopenJob(input: JobPress, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const { count } = await tx.job.updateMany({
      where: { id: input.id, version: input.version, status: { not: 'open' } },
      data: { status: 'open', closedAt: null, endReason: '', version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('job')
    await tx.lesson.deleteMany({ where: { jobId: input.id, acceptedAt: null, declinedAt: null } })
    await recordChange(tx, {
      by: actor,
      action: 'opened again',
      entity: 'Job',
      entityId: input.id,
      after: { status: 'open' },
    })
    return { version: input.version + 1 }
  })
}

async function lockOpenJob(tx: Tx, id: number) {
  await tx.$queryRaw`select id from "Job" where id = ${id} for update`
  const job = await tx.job.findUnique({
    where: { id },
    select: {
      number: true,
      status: true,
      plan: true,
      pieces: { select: { number: true, status: true }, orderBy: { number: 'asc' } },
      faults: { select: { number: true, disposition: true } },
      operations: {
        select: {
          name: true,
          logs: { where: { endedAt: null }, select: { by: { select: { name: true } } } },
        },
      },
    },
  })
  if (!job) throw new Refused('not-found', 'There is no such job.')
  if (job.status !== 'open') throw new Refused('already-done', `The job is ${job.status} already.`)
  return job
}

async function endJob(
  tx: Tx,
  which: { id: number; version: number },
  end: { status: 'closed' | 'cancelled'; endReason: string },
): Promise<void> {
  const { count } = await tx.job.updateMany({
    where: { id: which.id, version: which.version, status: 'open' },
    data: { ...end, closedAt: new Date(), version: { increment: 1 } },
  })
  if (count !== 1) throw changedMeanwhile('job')
  await tx.stockPiece.updateMany({
    where: { reservedForJobId: which.id, usedAt: null },
    data: { reservedForJobId: null, version: { increment: 1 } },
  })
}
