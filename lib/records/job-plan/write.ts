import 'server-only'
import type { Operation } from '@/lib/core/cost/operation'
import type { JobPlan } from '@/lib/records/job/rules'
import type { OperationChanges } from '@/lib/records/job-plan/rules'
import { operationPlan } from '@/lib/records/operation/rules'
import type { Tx } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'

/** An operation as its row says what to do and by which numbers. */
export function operationRow(operation: Operation, plan: JobPlan, position: number) {
  const { instruction, setPoints } = operationPlan(operation.key, plan)
  return {
    position,
    key: operation.key,
    name: operation.name,
    workCentre: operation.workCentre,
    instruction,
    setPoints: asJson(setPoints),
    plannedSetUpMinutes: operation.setUpMinutes.likely,
    plannedRunMinutesPerPiece: operation.runMinutesPerPiece.likely,
  }
}

/** More than any job has: positions are moved out of the way by it, since each may stand only once. */
const outOfTheWay = 10_000

/**
 * Puts a job's operations as they are planned now, in the caller's transaction. What was begun keeps the minutes it is
 * measured against; what is no longer planned goes, unless somebody has worked on it.
 */
export async function putOperations(
  tx: Tx,
  job: { id: number; issue: number; plan: JobPlan },
  { planned, leftOut, dropped }: OperationChanges,
): Promise<void> {
  await tx.jobOperation.deleteMany({
    where: { id: { in: dropped.map(({ id }) => id) }, doneAt: null, logs: { none: {} } },
  })
  await tx.jobOperation.updateMany({
    where: { jobId: job.id },
    data: { position: { increment: outOfTheWay } },
  })
  for (const [index, { operation, row }] of planned.entries()) {
    const { plannedSetUpMinutes, plannedRunMinutesPerPiece, ...what } = operationRow(
      operation,
      job.plan,
      index + 1,
    )
    const minutes = { plannedSetUpMinutes, plannedRunMinutesPerPiece }
    if (row) {
      await tx.jobOperation.update({
        where: { id: row.id },
        data: { ...what, leftOutAtIssue: null, ...(!row.begun && minutes) },
      })
    } else {
      await tx.jobOperation.create({ data: { jobId: job.id, ...what, ...minutes } })
    }
  }
  for (const [index, row] of leftOut.entries()) {
    await tx.jobOperation.update({
      where: { id: row.id },
      data: {
        position: planned.length + index + 1,
        leftOutAtIssue: row.leftOutAtIssue ?? job.issue,
      },
    })
  }
}
