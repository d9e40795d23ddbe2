'use client'

import { useWatch } from 'react-hook-form'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { type Choice, NumberField, SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { shopUnits } from '@/lib/core/shop-format'
import { readMass } from '@/lib/core/typed/quantity'
import type { ShopUnits } from '@/lib/records/fields'
import { fillerUseForm, jobMoves } from '@/lib/records/filler-use/schema'
import { moveWords } from '@/lib/records/tooling/rules'
import { jobFillerAction } from '../actions'

const kinds = jobMoves.map((value) => ({ value, label: moveWords[value].label }))

export function FillerForm({
  jobId,
  fillers,
  chosenId,
  units,
}: {
  jobId: number
  fillers: readonly Choice[]
  chosenId: string
  units: ShopUnits
}) {
  const { form, field, submit, status, saving } = useRecordForm({
    schema: fillerUseForm(units),
    start: { jobId: String(jobId), fillerId: chosenId, kind: 'poured' as const, massKg: '', noteText: '' },
    action: jobFillerAction,
    emptyAfter: true,
  })
  const typed = useWatch({ control: form.control, name: 'massKg' }) ?? ''
  const kind = useWatch({ control: form.control, name: 'kind' })
  const massUnit = shopUnits[units.lengthUnit].mass
  const mass = typed.trim() ? readMass(typed, { defaultUnit: massUnit }) : null
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <SelectField
          label="What happened"
          hint={moveWords[kind].meaning}
          choices={kinds}
          {...field('kind')}
        />
        <SelectField label="Pot" choices={fillers} {...field('fillerId')} />
        <NumberField
          label="Mass, weighed"
          unit={massUnit}
          inputMode="decimal"
          understood={mass?.ok ? mass.echo : ''}
          {...field('massKg')}
        />
        <TextField label="Note" maxLength={300} {...field('noteText')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Enter it
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
