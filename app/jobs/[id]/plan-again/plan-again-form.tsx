'use client'

import { useRouter } from 'next/navigation'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button, LinkButton } from '@/app/_ui/button'
import { SelectField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { type WayKey, wayKeys, wayNames } from '@/lib/core/cost/ways'
import { reissueForm } from '@/lib/records/job/schema'
import { reissueTravellerAction } from '../../actions'

/** Chooses the way, which shows anew what changes, and makes the issue. */
export function PlanAgainForm({
  job,
  wayMade,
  label,
  isNeeded,
}: {
  job: { id: number; version: number; way: WayKey }
  wayMade: WayKey
  label: string
  isNeeded: boolean
}) {
  const router = useRouter()
  const { field, submit, status, saving } = useRecordForm({
    schema: reissueForm,
    start: { id: String(job.id), version: job.version, way: job.way },
    action: reissueTravellerAction,
    onSaved: () => router.push(`/jobs/${job.id}#papers`),
  })
  const way = field('way')
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <SelectField
          label="Way"
          hint={`Planned so far: ${wayNames[wayMade]}`}
          choices={wayKeys.map((value) => ({ value, label: wayNames[value] }))}
          {...way}
          onChange={(event) => {
            void way.onChange(event)
            router.replace(`/jobs/${job.id}/plan-again?way=${event.target.value}`, { scroll: false })
          }}
        />
      </div>
      <div className="form-foot">
        <Button type="submit" kind={isNeeded ? 'primary' : 'plain'} pending={saving}>
          {label}
        </Button>
        <LinkButton kind="quiet" href={`/jobs/${job.id}`}>
          Leave it as it is
        </LinkButton>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
