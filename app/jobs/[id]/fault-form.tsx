'use client'

import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { type Choice, SelectField, TextArea } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { faultForm } from '@/lib/records/fault/schema'
import { openFaultAction } from '../actions'

/** A fault somebody sees that no try says by itself. */
export function FaultForm({
  jobId,
  pieces,
  bends,
}: {
  jobId: number
  pieces: readonly Choice[]
  bends: readonly Choice[]
}) {
  const { field, submit, status, saving } = useRecordForm({
    schema: faultForm,
    start: { jobId: String(jobId), pieceId: '', bendPosition: '', description: '' },
    action: openFaultAction,
    emptyAfter: true,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <SelectField
          label="Of which piece"
          placeholder="The whole job"
          choices={pieces}
          {...field('pieceId')}
        />
        <SelectField
          label="At which bend"
          placeholder="Not of one bend"
          choices={bends}
          {...field('bendPosition')}
        />
        <TextArea label="What is wrong" rows={3} {...field('description')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Open the fault
        </Button>
        <FormStatus status={status} />
        <span className="muted small">Nothing is released past it until it is decided.</span>
      </div>
    </form>
  )
}
