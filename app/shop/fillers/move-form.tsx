'use client'

import { useWatch } from 'react-hook-form'
import { filled } from '@/app/_shop/filled'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { CheckField, NumberField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { shopUnits } from '@/lib/core/shop-format'
import { readMass } from '@/lib/core/typed/quantity'
import type { ShopUnits } from '@/lib/records/fields'
import { type FillerMoveName, moveWords } from '@/lib/records/tooling/rules'
import { fillerEntryForm } from '@/lib/records/tooling/schema'
import { moveFillerAction } from '../actions'

const moves = Object.entries(moveWords) as [FillerMoveName, { label: string; meaning: string }][]

export function MoveForm({ fillerId, units }: { fillerId: number; units: ShopUnits }) {
  const { form, field, submit, status, saving } = useRecordForm({
    schema: fillerEntryForm(units),
    start: { fillerId, kind: 'poured' as const, massKg: '', noteText: '' },
    action: moveFillerAction,
    emptyAfter: true,
  })
  const typed = useWatch({ control: form.control, name: 'massKg' })
  const massUnit = shopUnits[units.lengthUnit].mass
  const mass = typed.trim() ? readMass(typed, { defaultUnit: massUnit }) : null
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <fieldset className="stack stack-tight">
        <legend className="strong">What happened</legend>
        {moves.map(([kind, { label, meaning }]) => (
          <CheckField
            key={kind}
            type="radio"
            label={`${label}: ${meaning}`}
            {...filled(form, 'kind', kind)}
          />
        ))}
      </fieldset>
      <div className="fields">
        <NumberField
          label="Mass"
          unit={massUnit}
          inputMode="decimal"
          understood={mass?.ok ? mass.echo : ''}
          {...field('massKg')}
        />
        <TextField label="Note" optional maxLength={300} {...field('noteText')} />
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
