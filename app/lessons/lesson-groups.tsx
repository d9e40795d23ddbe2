import Link from 'next/link'
import { PressAction } from '@/app/_shop/press-action'
import { Verdict } from '@/app/_ui/verdict'
import { formatDuration, formatNumber, formatPercent } from '@/lib/core/format'
import { mean } from '@/lib/core/statistics/summary'
import type { LengthUnit } from '@/lib/core/units'
import { firstTryPieces, type LessonGroup, sectionWords } from '@/lib/records/lesson/rules'
import { decideLessonAction } from './actions'
import type { OperationRow } from './operation-rows'

export type FactorMove = { jobId: number; method: string; now: Belief; then: Belief }
type Belief = { mean: number; sd: number }

const factorText = (value: number) => formatNumber(value, { decimals: 3, keepZeros: true })
const beliefText = ({ mean: middle, sd }: Belief) => `${factorText(middle)} ± ${factorText(sd)}`

/** What each job taught, in words with its numbers, and the owner's two answers. */
export function LessonGroups({
  groups,
  operations,
  moves = [],
  yieldNow,
  lengthUnit,
  mayDecide,
}: {
  groups: readonly LessonGroup[]
  operations: readonly OperationRow[]
  moves?: readonly FactorMove[]
  yieldNow: number
  lengthUnit: LengthUnit
  mayDecide: boolean
}) {
  return (
    <ul className="ruled-list">
      {groups.map((group) => {
        const key = [group.job.id, group.kind, group.method, group.operationKey, group.state].join('|')
        const move = moves.find((one) => one.jobId === group.job.id && one.method === group.method)
        const operation = operations.find(
          (one) => one.jobId === group.job.id && one.key === group.operationKey,
        )
        return (
          <li key={key} className="stack stack-tight">
            <span>
              <Link href={`/jobs/${group.job.id}#tries`}>{group.job.number}</Link>:{' '}
              {group.kind === 'springbackFactor' ? (
                <SpringbackText group={group} move={move} lengthUnit={lengthUnit} />
              ) : group.kind === 'firstTry' ? (
                <FirstTryText group={group} yieldNow={yieldNow} lengthUnit={lengthUnit} />
              ) : (
                <MinutesText operation={operation} />
              )}
            </span>
            <Answers group={group} mayDecide={mayDecide} />
          </li>
        )
      })}
    </ul>
  )
}

function SpringbackText({
  group,
  move,
  lengthUnit,
}: {
  group: LessonGroup
  move: FactorMove | undefined
  lengthUnit: LengthUnit
}) {
  const { values } = group
  return (
    <>
      springback of {group.materialId}, {sectionWords(group.sectionText, lengthUnit)}, {group.method}:{' '}
      {values.length} {values.length === 1 ? 'bend' : 'bends'} at a mean factor of{' '}
      <strong>{factorText(mean(values))}</strong>.
      {move && group.state === 'open' && (
        <>
          {' '}
          Plans go from {beliefText(move.now)} to <strong>{beliefText(move.then)}</strong>.
        </>
      )}
    </>
  )
}

function FirstTryText({
  group,
  yieldNow,
  lengthUnit,
}: {
  group: LessonGroup
  yieldNow: number
  lengthUnit: LengthUnit
}) {
  const pieces = firstTryPieces(group.tries)
  const pieceCount = pieces.goodCount + pieces.badCount
  const good = group.values.filter((value) => value === 1).length
  return (
    <>
      first tries of {group.materialId}, {sectionWords(group.sectionText, lengthUnit)}, {group.method}:{' '}
      <strong>
        {good} of {group.values.length}
      </strong>{' '}
      bends good, {pieces.goodCount} of {pieceCount} pieces good throughout.
      {group.state === 'open' &&
        ` Accepted, the yield in the rates is made anew from all accepted pieces; it is ${formatPercent(yieldNow)} now.`}
    </>
  )
}

function MinutesText({ operation }: { operation: OperationRow | undefined }) {
  if (!operation) return <>an operation that the job no longer has.</>
  return (
    <>
      {operation.name}: <strong>{formatDuration(operation.loggedMinutes)}</strong> by the clock for{' '}
      {operation.pieceCount} {operation.pieceCount === 1 ? 'piece' : 'pieces'},{' '}
      {formatDuration(operation.plannedMinutes)} planned.
      {operation.state === 'open' &&
        ' Accepted, the shop’s times behind it move a third of the way, on a new sheet of rates.'}
    </>
  )
}

function Answers({ group, mayDecide }: { group: LessonGroup; mayDecide: boolean }) {
  const what = {
    jobId: group.job.id,
    kind: group.kind,
    method: group.method,
    operationKey: group.operationKey,
  }
  const name = `${group.job.number}, ${group.kind === 'operationMinutes' ? group.operationKey : group.kind === 'firstTry' ? 'first tries' : 'springback'}`
  const again = group.kind === 'springbackFactor'
  const said =
    group.state === 'open' ? null : (
      <Verdict
        word={group.state === 'accepted' ? 'pass' : 'waiting'}
        label={group.state === 'accepted' ? 'accepted' : 'left out'}
      />
    )
  if (!mayDecide) return said ?? <span className="muted">The owner decides.</span>
  return (
    <span className="row">
      {said}
      {(group.state === 'open' || (again && group.state === 'declined')) && (
        <PressAction
          kind={group.state === 'open' ? 'primary' : 'quiet'}
          label="Accept"
          name={name}
          input={{ ...what, accept: true }}
          action={decideLessonAction}
        />
      )}
      {(group.state === 'open' || (again && group.state === 'accepted')) && (
        <PressAction
          kind={group.state === 'open' ? 'plain' : 'quiet'}
          label="Leave out"
          name={name}
          input={{ ...what, accept: false }}
          action={decideLessonAction}
        />
      )}
    </span>
  )
}
