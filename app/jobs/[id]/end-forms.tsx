'use client'

import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { DateField, TextArea } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { jobDueForm } from '@/lib/records/job/schema'
import { cancelForm, closeForm } from '@/lib/records/job-end/schema'
import { cancelJobAction, changeDueAction, closeJobAction } from '../actions'

type Which = { id: number; version: number }

export function DueForm({ job, dueOn }: { job: Which; dueOn: string }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: jobDueForm,
    start: { id: String(job.id), version: job.version, dueOn },
    action: changeDueAction,
  })
  return (
    <form method="post" onSubmit={submit} className="fields" noValidate>
      <DateField label="Due on" {...field('dueOn')} />
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Move the due day
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

export function CloseForm({ job, undone }: { job: Which; undone: readonly string[] }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: closeForm,
    start: { id: String(job.id), version: job.version, whyText: '' },
    action: closeJobAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <h3>Close it</h3>
      {undone.length === 0 ? (
        <p className="muted">
          Every piece is released or scrapped. What the job taught is drawn from its tries and clocks, for the
          owner to accept; stock not cut goes back to the rack.
        </p>
      ) : (
        <>
          <ul className="plain-list">
            {undone.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <TextArea label="Why it is closed all the same" rows={2} {...field('whyText')} />
        </>
      )}
      <div className="form-foot">
        <Button type="submit" kind={undone.length === 0 ? 'primary' : 'plain'} pending={saving}>
          Close the job
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

export function CancelForm({ job }: { job: Which }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: cancelForm,
    start: { id: String(job.id), version: job.version, whyText: '' },
    action: cancelJobAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <h3>Cancel it</h3>
      <p className="muted">Nothing is released yet. Tries stay on record; stock not cut goes back.</p>
      <TextArea label="Why it is cancelled" rows={2} {...field('whyText')} />
      <div className="form-foot">
        <Button type="submit" kind="stop" pending={saving}>
          Cancel the job
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
