'use client'

import { useRouter } from 'next/navigation'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { type Choice, DateField, SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { jobForm } from '@/lib/records/job/schema'
import { openJobAction } from '../actions'

export function NewJobForm({
  parts,
  ways,
  start,
}: {
  parts: readonly Choice[]
  ways: readonly Choice[]
  start: { revisionId: string; dueOn: string }
}) {
  const router = useRouter()
  const { field, submit, status, saving } = useRecordForm({
    schema: jobForm,
    start: { ...start, quantity: '', way: '' as const },
    action: openJobAction,
    onSaved: ({ jobId }) => router.push(`/jobs/${jobId}`),
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <SelectField label="Part" choices={parts} wide {...field('revisionId')} />
        <TextField label="How many" inputMode="numeric" {...field('quantity')} />
        <DateField label="Due on" {...field('dueOn')} />
        <SelectField
          label="Way"
          placeholder="The way of the part’s set-up"
          choices={ways}
          {...field('way')}
        />
      </div>
      <p className="muted">
        The revision is frozen with this. Pieces, operations and the traveller are made from the set-up as it
        stands now.
      </p>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Open the job
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
