import Link from 'next/link'
import { PressAction } from '@/app/_shop/press-action'
import { FoldSection } from '@/app/_ui/fold'
import { undone } from '@/lib/records/job-end/rules'
import { reopenJobAction } from '../actions'
import { CancelForm, CloseForm, DueForm } from './end-forms'
import type { JobView } from './job-view'

/** The due day, and the two ways a job ends. */
export function EndSection({ view }: { view: JobView }) {
  const { job, allows } = view
  if (job.status !== 'open') {
    const waiting = job.lessons.filter((one) => !one.acceptedAt && !one.declinedAt).length
    return (
      <FoldSection
        title="What it taught"
        id="end"
        summary={waiting > 0 ? `${waiting} to decide` : undefined}
        aside={<Link href="/lessons">Lessons</Link>}
        open
      >
        <p>
          {job.lessons.length === 0
            ? 'No bend with a loaded and a final angle and no clock was kept: it taught nothing that can be counted.'
            : waiting === 0
              ? `${job.lessons.length} readings and times were drawn from it; all are decided.`
              : `${waiting} of ${job.lessons.length} readings and times wait for the owner to accept or decline them.`}
        </p>
        {allows('job.write') && (
          <PressAction
            label="Open it again"
            input={{ id: job.id, version: job.version }}
            action={reopenJobAction}
          />
        )}
      </FoldSection>
    )
  }
  if (!allows('job.write')) return null
  const left = undone({
    pieces: job.pieces,
    faults: job.faults,
    runningClocks: job.operations.flatMap(({ name, logs }) =>
      logs.filter(({ endedAt }) => endedAt === null).map(({ by }) => ({ operation: name, by: by.name })),
    ),
  })
  const which = { id: job.id, version: job.version }
  const anyReleased = job.pieces.some(({ status }) => status === 'released')
  return (
    <FoldSection
      title="Due day, closing, cancelling"
      id="end"
      summary={
        left.length === 0
          ? 'nothing is left undone'
          : `${left.length} ${left.length === 1 ? 'thing' : 'things'} left undone`
      }
      open={view.openId === 'end'}
    >
      <DueForm key={`due ${job.version}`} job={which} dueOn={job.dueOn.toISOString().slice(0, 10)} />
      <div className={anyReleased ? 'stack' : 'split split-even'}>
        <CloseForm key={`close ${job.version}`} job={which} undone={left} />
        {!anyReleased && <CancelForm key={`cancel ${job.version}`} job={which} />}
      </div>
    </FoldSection>
  )
}
