'use client'

import { useWatch } from 'react-hook-form'
import type { z } from 'zod'
import { LengthField } from '@/app/_shop/length-field'
import { Button } from '@/app/_ui/button'
import { NumberField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { shopUnits } from '@/lib/core/shop-format'
import { readStress } from '@/lib/core/typed/quantity'
import type { ShopUnits } from '@/lib/records/fields'
import { newStrapForm } from '@/lib/records/tooling/schema'
import { addStrapAction, changeStrapAction } from '../actions'
import { useToolForm } from '../use-tool-form'

export type TypedStrap = z.input<ReturnType<typeof newStrapForm>>

export function StrapForm({
  units,
  start,
  saved,
}: {
  units: ShopUnits
  start: TypedStrap
  /** The strap that is changed; left out to add one. */
  saved?: { id: number; version: number }
}) {
  const { form, field, submit, status, saving } = useToolForm<TypedStrap>({
    schema: newStrapForm(units),
    start,
    saved,
    add: addStrapAction,
    change: changeStrapAction,
    listHref: '/shop/straps',
  })
  const now = useWatch({ control: form.control })
  const stressUnit = shopUnits[units.lengthUnit].stress
  const strength = now.yieldMPa ? readStress(now.yieldMPa, { defaultUnit: stressUnit }) : null
  const length = (name: 'thicknessMm' | 'widthMm' | 'lengthMm') => ({
    ...field(name),
    lengthUnit: units.lengthUnit,
    typed: now[name] ?? '',
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <TextField label="Shop number" maxLength={20} hint="As stamped on it: S-2" {...field('shopNumber')} />
        <LengthField label="Thickness" gauge {...length('thicknessMm')} />
        <LengthField label="Width" {...length('widthMm')} />
        <LengthField
          label="Length"
          hint="Longer than the longest bend by both grips"
          {...length('lengthMm')}
        />
        <NumberField
          label="Yield strength"
          unit={stressUnit}
          hint="Of the steel as it is, off its certificate"
          understood={strength?.ok ? strength.echo : ''}
          {...field('yieldMPa')}
        />
        <NumberField
          label="Friction on the tube"
          optional
          inputMode="decimal"
          hint="0 to 1; left empty: 0.15"
          {...field('frictionCoeff')}
        />
        <TextField label="Place" maxLength={80} {...field('place')} />
        <TextArea label="Notes" rows={3} maxLength={2000} {...field('notesText')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {saved ? 'Save' : 'Add the strap'}
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
