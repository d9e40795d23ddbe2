'use client'

import { useWatch } from 'react-hook-form'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { type Choice, SelectField, TextArea } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { type Disposition, dispositionNotes, dispositions } from '@/lib/core/inspection/disposition'
import { decideForm } from '@/lib/records/fault/schema'
import { decideFaultAction } from '../jobs/actions'

export function DecideForm({
  id,
  version,
  ofPiece,
  bars,
}: {
  id: number
  version: number
  /** Of one piece, which can be scrapped; otherwise of the whole job. */
  ofPiece: boolean
  /** Free tubes that a replacement can be cut from. */
  bars: readonly Choice[]
}) {
  const { form, field, submit, status, saving } = useRecordForm({
    schema: decideForm,
    start: { id: String(id), version, disposition: 'rework' as const, whyText: '', stockPieceId: '' },
    action: decideFaultAction,
  })
  const chosen: Disposition = useWatch({ control: form.control, name: 'disposition' })
  const note = dispositionNotes[chosen]
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <SelectField
          label="Disposition"
          hint={`${note.meaning}. Then: ${note.then}.`}
          choices={dispositions
            .filter((value) => ofPiece || value !== 'scrap')
            .map((value) => ({ value, label: dispositionNotes[value].name }))}
          {...field('disposition')}
        />
        {chosen === 'scrap' && (
          <SelectField
            label="Tube for the replacement"
            placeholder={
              bars.length > 0 ? 'One that is reserved already, or later' : 'None of this size is free'
            }
            choices={bars}
            hint="Is reserved for this job with the decision"
            {...field('stockPieceId')}
          />
        )}
        <TextArea label="Why, and within what limits" rows={2} {...field('whyText')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind={chosen === 'scrap' ? 'stop' : 'primary'} pending={saving}>
          {chosen === 'scrap' ? 'Scrap the piece' : 'Decide'}
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
