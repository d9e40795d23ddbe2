'use client'

import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { SelectField, TextArea } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { dispositionNotes, dispositions } from '@/lib/core/inspection/disposition'
import { decideForm } from '@/lib/records/fault/schema'
import { decideFaultAction } from '../actions'

const choices = dispositions.map((value) => ({ value, label: dispositionNotes[value].name }))

export function DecideForm({ id, version }: { id: number; version: number }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: decideForm,
    start: { id: String(id), version, disposition: 'rework' as const, whyText: '', stockPieceId: '' },
    action: decideFaultAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <SelectField label="Disposition" choices={choices} {...field('disposition')} />
      <TextArea label="Why, and within what limits" {...field('whyText')} />
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Decide
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
