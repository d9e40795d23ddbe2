import { type LearningCurve, runFactor } from '@/lib/core/cost/learning'
import type { OperationKey } from '@/lib/core/cost/operation'
import type { OperationTimes } from '@/lib/core/cost/operation-times'
import { fixed, type ThreePoint } from '@/lib/core/cost/spread'
import type { AlloyFamily } from '@/lib/core/materials/alloys'
import { loggedTime } from '@/lib/core/statistics/logged-time'

type PointKey = {
  [Key in keyof OperationTimes]: OperationTimes[Key] extends ThreePoint ? Key : never
}[keyof OperationTimes]

const cutting = ['sawSetUpMinutes', 'sawHandlingMinutes'] as const
const heatTreating = ['heatTreatPackMinutes', 'heatTreatPerPieceMinutes'] as const
const welding = ['fitUpSetUpMinutes', 'fitUpPerJointMinutes', 'dressPerJointMinutes'] as const

/**
 * The shop's own times behind the minutes of each operation. A trial bend has none: it is a bend, filled and emptied,
 * and learns with those.
 */
export const timesBehind: Readonly<Record<OperationKey, readonly PointKey[]>> = {
  readJob: ['readJobMinutes', 'readPerBendMinutes'],
  orderOutside: ['orderOutsideMinutes'],
  receive: ['receiveSetUpMinutes', 'receivePerPieceMinutes'],
  saw: cutting,
  sawMitres: [...cutting, 'mitreSetUpMinutes'],
  deburr: ['deburrSetUpMinutes', 'deburrPerMetreMinutes'],
  mark: ['markPerPieceMinutes', 'markPerBendMinutes'],
  anneal: heatTreating,
  cleanBore: ['cleanSetUpMinutes', 'cleanPerMetreMinutes'],
  fill: ['fillHeatUpMinutes', 'fillPerPieceMinutes', 'fillPerKgMinutes'],
  packSand: ['sandSetUpMinutes', 'sandPerPieceMinutes', 'sandPerLitreMinutes'],
  setUpPress: ['pressSetUpMinutes', 'strapSetUpMinutes'],
  trial: [],
  bend: [
    'bendMinutes',
    'bendPer90DegMinutes',
    'planeChangeMinutes',
    'tightAngleMinutes',
    'strapPerBendMinutes',
  ],
  meltOut: ['meltOutSetUpMinutes', 'meltOutPerPieceMinutes', 'meltOutPerKgMinutes', 'meltOutPerBendMinutes'],
  emptySand: ['emptySandMinutes'],
  checkAngles: ['checkAngleSetUpMinutes', 'checkPerBendMinutes'],
  dyePenetrant: ['dyePenetrantSetUpMinutes', 'dyePenetrantPerBendMinutes'],
  age: heatTreating,
  solutionAge: heatTreating,
  trimEnds: ['trimSetUpMinutes', 'trimPerEndMinutes'],
  mitreEnds: ['mitreSetUpMinutes', 'mitrePerEndMinutes'],
  saddleEnds: ['saddleSetUpMinutes', 'saddlePerEndMinutes'],
  fitWeldMitres: welding,
  fitWeld: welding,
  drill: ['holeSetUpMinutes', 'holeMinutes'],
  inspect: ['inspectSetUpMinutes', 'inspectPerPieceMinutes', 'inspectPerFeatureMinutes'],
  pack: ['packMinutes'],
}

const sawn: ReadonlySet<OperationKey> = new Set(['saw', 'sawMitres'])
const welded: ReadonlySet<OperationKey> = new Set(['fitWeldMitres', 'fitWeld'])

/** Operations that the machine paces: nobody gets faster at them over a run. */
export const machinePaced: ReadonlySet<OperationKey> = new Set([
  'saw',
  'sawMitres',
  'setUpPress',
  'trial',
  'anneal',
  'age',
  'solutionAge',
])

/**
 * Minutes that were planned for an operation over so many pieces, before any allowance.
 *   set-up + run of the first piece * sum of the learning factors (the piece count where a machine paces it)
 * Source: as `runFactor`. Valid: minutes from zero, whole counts from zero.
 */
export function plannedMinutes(
  operation: {
    readonly key: OperationKey
    readonly setUpMinutes: number
    readonly runMinutesPerPiece: number
  },
  pieceCount: number,
  learning: LearningCurve,
): number {
  const runs = machinePaced.has(operation.key) ? pieceCount : runFactor(pieceCount, learning)
  return operation.setUpMinutes + operation.runMinutesPerPiece * runs
}

export interface LearnedTimes {
  /** What each of the times is multiplied by. */
  readonly factor: number
  readonly times: OperationTimes
}

/**
 * The shop's times after one job's logged minutes of an operation: each time behind it scaled alike.
 *   factor = median of `loggedTime` over the planned minutes, on which the spread of the plan has no bearing;
 *   speeds (saw, weld) go the other way, 1 / factor
 * Source: as `loggedTime`; scaling all alike because one total cannot tell them apart. Valid: minutes above zero; null where
 * the operation has no times of its own.
 */
export function learnedTimes(
  times: OperationTimes,
  job: {
    readonly key: OperationKey
    readonly family: AlloyFamily
    readonly plannedMinutes: number
    readonly loggedMinutes: number
  },
): LearnedTimes | null {
  const keys = timesBehind[job.key]
  if (keys.length === 0 || !(job.plannedMinutes > 0)) return null
  if (!keys.some((key) => times[key].likely > 0)) return null
  const belief = loggedTime(fixed(job.plannedMinutes), [job.loggedMinutes])
  const factor = belief.medianMinutes / job.plannedMinutes
  const scaledPoints = Object.fromEntries(
    keys.map((key) => {
      const { low, likely: middle, high } = times[key]
      return [key, { low: tidy(low * factor), likely: tidy(middle * factor), high: tidy(high * factor) }]
    }),
  )
  return {
    factor,
    times: {
      ...times,
      ...scaledPoints,
      ...(sawn.has(job.key) && {
        sawRateMm2PerMin: {
          ...times.sawRateMm2PerMin,
          [job.family]: tidy(times.sawRateMm2PerMin[job.family] / factor),
        },
      }),
      ...(welded.has(job.key) && { weldSpeedMmPerMin: tidy(times.weldSpeedMmPerMin / factor) }),
    },
  }
}

/** Three figures are more than minutes are known to. */
function tidy(value: number): number {
  return Number(value.toPrecision(3))
}
