import { plannedMinutes } from '@/lib/core/cost/learned-times'
import type { LearningCurve } from '@/lib/core/cost/learning'
import { operationKeys } from '@/lib/core/cost/operation'
import { clockedPieces, type LessonGroup, type LoggedSpan } from '@/lib/records/lesson/rules'

type Clocked = {
  jobId: number
  key: string
  name: string
  plannedSetUpMinutes: number
  plannedRunMinutesPerPiece: number
  logs: readonly LoggedSpan[]
  job: { pieces: readonly unknown[] }
}

export type OperationRow = {
  jobId: number
  jobNumber: string
  key: string
  name: string
  state: LessonGroup['state']
  loggedMinutes: number
  plannedMinutes: number
  pieceCount: number
}

/** Each clocked operation of a job, its logged minutes beside those planned for as many pieces. */
export function operationRows(
  groups: readonly LessonGroup[],
  clocked: readonly Clocked[],
  learning: LearningCurve,
): OperationRow[] {
  return groups.flatMap((group) => {
    if (group.kind !== 'operationMinutes') return []
    const operation = clocked.find((one) => one.jobId === group.job.id && one.key === group.operationKey)
    const key = operationKeys.find((one) => one === group.operationKey)
    if (!operation || !key) return []
    const pieceCount = clockedPieces(operation.logs, operation.job.pieces.length)
    return [
      {
        jobId: group.job.id,
        jobNumber: group.job.number,
        key,
        name: operation.name,
        state: group.state,
        loggedMinutes: group.values.reduce((sum, minutes) => sum + minutes, 0),
        pieceCount,
        plannedMinutes: plannedMinutes(
          {
            key,
            setUpMinutes: operation.plannedSetUpMinutes,
            runMinutesPerPiece: operation.plannedRunMinutesPerPiece,
          },
          pieceCount,
          learning,
        ),
      },
    ]
  })
}
