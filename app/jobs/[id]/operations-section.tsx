import { PressAction } from '@/app/_shop/press-action'
import { DataTable } from '@/app/_ui/data-table'
import { FoldSection } from '@/app/_ui/fold'
import { formatDuration } from '@/lib/core/format'
import { loggedMinutes } from '@/lib/records/lesson/rules'
import { markOperationAction } from '../actions'
import type { JobView } from './job-view'

/** The operations in the order of work, planned and logged. */
export function OperationsSection({ view }: { view: JobView }) {
  const { job, allows } = view
  const mayMark = job.status === 'open' && allows('bench.write')
  const leftOut = job.operations.filter(({ leftOutAtIssue }) => leftOutAtIssue !== null)
  const planned = job.operations.filter(({ leftOutAtIssue }) => leftOutAtIssue === null)
  const rows = planned.map((operation) => ({
    ...operation,
    planned: operation.plannedSetUpMinutes + operation.plannedRunMinutesPerPiece * job.quantity,
    logged: loggedMinutes(operation.logs),
    running: operation.logs.filter(({ endedAt }) => endedAt === null).map(({ by }) => by.name),
  }))
  type Row = (typeof rows)[number]
  const sum = (of: 'planned' | 'logged') => rows.reduce((total, row) => total + row[of], 0)
  return (
    <FoldSection
      title="Operations"
      id="operations"
      summary={`${rows.filter(({ doneAt }) => doneAt !== null).length} of ${rows.length} done, ${formatDuration(sum('logged'))} of ${formatDuration(sum('planned'))}`}
      open={view.openId === 'operations'}
    >
      <DataTable
        caption="Operations, planned and logged"
        captionHidden
        rows={rows}
        rowKey={(operation) => String(operation.id)}
        columns={[
          { key: 'name', head: 'Operation', title: true, cell: (operation) => operation.name, foot: 'All' },
          {
            key: 'planned',
            head: 'Planned',
            cell: (operation) => formatDuration(operation.planned),
            foot: formatDuration(sum('planned')),
          },
          {
            key: 'logged',
            head: 'Logged',
            cell: (operation) =>
              operation.running.length > 0
                ? `${formatDuration(operation.logged)}, the clock of ${operation.running.join(' and ')} runs`
                : formatDuration(operation.logged),
            foot: formatDuration(sum('logged')),
          },
          {
            key: 'done',
            head: 'Done',
            cell: (operation: Row) =>
              mayMark ? (
                <PressAction
                  label={operation.doneAt ? 'Not done after all' : 'Mark done'}
                  kind={operation.doneAt ? 'quiet' : 'plain'}
                  name={operation.name}
                  input={{ id: operation.id, done: operation.doneAt === null }}
                  action={markOperationAction}
                />
              ) : operation.doneAt ? (
                'done'
              ) : (
                <span className="muted">no</span>
              ),
          },
        ]}
      />
      <p className="muted small">
        Planned: set-up and the first piece’s time for each of {job.quantity}, before anybody gets faster.
      </p>
      {leftOut.length > 0 && (
        <>
          <h3>No longer planned, on record</h3>
          <ul className="ruled-list">
            {leftOut.map((operation) => (
              <li key={operation.id}>
                {operation.name}: {formatDuration(loggedMinutes(operation.logs))} logged
                {operation.doneAt && ', marked done'}; left out since issue {operation.leftOutAtIssue} of the
                traveller.
              </li>
            ))}
          </ul>
        </>
      )}
    </FoldSection>
  )
}
