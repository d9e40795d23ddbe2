import 'server-only'
import type { OperationOverride } from '@/lib/core/cost/operation'
import type { WayKey } from '@/lib/core/cost/ways'
import { isWay, type JobPlan, wayOfSetup } from '@/lib/records/job/rules'
import type { JobDue, JobInput, Reissue } from '@/lib/records/job/schema'
import {
  quotedOf,
  readPlanAgain,
  readPlanNow,
  readRevisionForPlan,
  readTimes,
} from '@/lib/records/job-plan/read'
import { plannedOperations, type QuotedWork } from '@/lib/records/job-plan/rules'
import { operationRow, putOperations } from '@/lib/records/job-plan/write'
import { newScanCode } from '@/lib/records/piece/write'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import { nextNumber } from '@/lib/server/numbering'
import type { Actor } from '@/lib/server/session'

export type OpenedJob = { jobId: number; number: string }

/**
 * Makes an accepted quote line into its job, in the caller's transaction. However often and from however many sides
 * it is pressed, there is one job: the later ones are told of it.
 */
export async function openJobFromLine(
  tx: Tx,
  input: { quoteLineId: number; quantity: number; dueOn: Date },
  by: Actor | string,
): Promise<OpenedJob> {
  await tx.$queryRaw`select id from "QuoteLine" where id = ${input.quoteLineId} for update`
  const line = await tx.quoteLine.findUnique({
    where: { id: input.quoteLineId },
    select: {
      revisionId: true,
      job: { select: { id: true, number: true } },
      quote: { select: { customerId: true } },
      estimate: { select: { way: true, overrides: true, inputs: true } },
      breaks: { select: { quantity: true, unitCents: true }, orderBy: { quantity: 'desc' } },
    },
  })
  if (!line) throw new Refused('not-found', 'There is no such line on the quote.')
  if (line.job) return { jobId: line.job.id, number: line.job.number }
  const decision = await tx.decision.findFirst({
    where: { revisionId: line.revisionId },
    select: { way: true },
    orderBy: { decidedAt: 'desc' },
  })
  const way = line.estimate?.way ?? decision?.way ?? null
  const unitCents = line.breaks.find(({ quantity }) => quantity <= input.quantity)?.unitCents
  return makeJob(
    tx,
    {
      revisionId: line.revisionId,
      customerId: line.quote.customerId,
      quoteLineId: input.quoteLineId,
      quantity: input.quantity,
      dueOn: input.dueOn,
      way: way !== null && isWay(way) ? way : null,
      priceCents: unitCents === undefined ? null : unitCents * input.quantity,
      quoted: quotedOf(line.estimate),
    },
    by,
  )
}

/** Opens a job that no quote stands behind. */
export async function openJob(input: JobInput, actor: Actor): Promise<OpenedJob> {
  return db.$transaction((tx) =>
    makeJob(
      tx,
      {
        revisionId: input.revisionId,
        customerId: null,
        quoteLineId: null,
        quantity: input.quantity,
        dueOn: input.dueOn,
        way: input.way === '' ? null : input.way,
        priceCents: null,
        quoted: { work: null, overrides: [] },
      },
      actor,
    ),
  )
}

/** Moves the day a job is due. */
export async function changeDue(input: JobDue, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const job = await tx.job.findUnique({ where: { id: input.id }, select: { status: true, dueOn: true } })
    if (!job) throw new Refused('not-found', 'There is no such job.')
    if (job.status !== 'open') throw new Refused('wrong-state', `The job is ${job.status}.`)
    const { count } = await tx.job.updateMany({
      where: { id: input.id, version: input.version, status: 'open' },
      data: { dueOn: input.dueOn, version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('job')
    await recordChange(tx, {
      by: actor,
      action: 'moved the due day of',
      entity: 'Job',
      entityId: input.id,
      before: { dueOn: job.dueOn },
      after: { dueOn: input.dueOn },
    })
    return { version: input.version + 1 }
  })
}

/**
 * Plans a job again from the part's set-up, the stock reserved and the factor as they are now, and makes the next issue of
 * its traveller; older prints are void. What was tried and timed stays, with the issue it was done by.
 */
export async function reissueTraveller(input: Reissue, actor: Actor): Promise<{ travellerIssue: number }> {
  return db.$transaction(async (tx) => {
    const job = await tx.job.findUnique({
      where: { id: input.id },
      select: { status: true, way: true, travellerIssue: true },
    })
    if (!job) throw new Refused('not-found', 'There is no such job.')
    if (job.status !== 'open')
      throw new Refused('wrong-state', 'The job is closed; its traveller stays as it is.')
    const again = await readPlanAgain(tx, input.id, input.way)
    if (!again) throw new Refused('not-found', 'There is no such job.')
    const { changes, operations, way } = again
    const plan: JobPlan = { ...again.plan, issue: { changes, byText: actor.name } }
    const issue = job.travellerIssue + 1
    const { count } = await tx.job.updateMany({
      where: { id: input.id, version: input.version, status: 'open' },
      data: { way, plan: asJson(plan), travellerIssue: issue, version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('job')
    await putOperations(tx, { id: input.id, issue, plan }, operations)
    await recordChange(tx, {
      by: actor,
      action: 'reissued the traveller of',
      entity: 'Job',
      entityId: input.id,
      detailText: changes.join('; '),
      before: { travellerIssue: job.travellerIssue, way: job.way },
      after: { travellerIssue: issue, way },
    })
    return { travellerIssue: issue }
  })
}

type NewJob = {
  revisionId: number
  customerId: number | null
  quoteLineId: number | null
  quantity: number
  dueOn: Date
  way: WayKey | null
  priceCents: number | null
  quoted: { work: QuotedWork | null; overrides: readonly OperationOverride[] }
}

async function makeJob(tx: Tx, wanted: NewJob, by: Actor | string): Promise<OpenedJob> {
  const revision = await readRevisionForPlan(tx, wanted.revisionId)
  const way = wanted.way ?? (revision.setup ? wayOfSetup(revision.setup) : 'hollow')
  if (!revision.frozenAt) {
    await tx.partRevision.updateMany({
      where: { id: wanted.revisionId, frozenAt: null },
      data: { frozenAt: new Date() },
    })
  }
  const plan = await readPlanNow(tx, revision, way)
  const operations = plannedOperations(revision, plan, await readTimes(tx), wanted.quoted)
  const number = await nextNumber(tx, 'job')
  const { id } = await tx.job.create({
    data: {
      number,
      customerId: wanted.customerId ?? revision.part.customerId,
      revisionId: wanted.revisionId,
      quoteLineId: wanted.quoteLineId,
      quantity: wanted.quantity,
      dueOn: wanted.dueOn,
      way,
      priceCents: wanted.priceCents,
      plan: asJson(plan),
      pieces: {
        createMany: {
          data: Array.from({ length: wanted.quantity }, (_, index) => ({
            number: index + 1,
            scanCode: newScanCode(),
          })),
        },
      },
      operations: {
        createMany: {
          data: operations.map((operation, index) => operationRow(operation, plan, index + 1)),
        },
      },
    },
    select: { id: true },
  })
  await recordChange(tx, {
    by,
    action: 'opened',
    entity: 'Job',
    entityId: id,
    detailText: `${number}: ${wanted.quantity} of ${revision.part.number} revision ${revision.letter}`,
    after: { number, way, quantity: wanted.quantity, dueOn: wanted.dueOn, quoteLineId: wanted.quoteLineId },
  })
  return { jobId: id, number }
}
