'use client'

import { useWatch } from 'react-hook-form'
import type { z } from 'zod'
import { LengthField } from '@/app/_shop/length-field'
import { Button } from '@/app/_ui/button'
import { NumberField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { readAngle } from '@/lib/core/typed/angle'
import type { ShopUnits } from '@/lib/records/fields'
import { newDieForm } from '@/lib/records/tooling/schema'
import { addDieAction, changeDieAction } from '../actions'
import { useToolForm } from '../use-tool-form'

export type TypedDie = z.input<ReturnType<typeof newDieForm>>

export function DieForm({
  units,
  start,
  saved,
}: {
  units: ShopUnits
  start: TypedDie
  /** The die that is changed; left out to add one. */
  saved?: { id: number; version: number }
}) {
  const { form, field, submit, status, saving } = useToolForm<TypedDie>({
    schema: newDieForm(units),
    start,
    saved,
    add: addDieAction,
    change: changeDieAction,
    listHref: '/shop/dies',
  })
  const now = useWatch({ control: form.control })
  const arc = now.arcDeg ? readAngle(now.arcDeg) : null
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <TextField label="Shop number" maxLength={20} hint="As stamped on it: D-6" {...field('shopNumber')} />
        <LengthField
          label="Surface radius"
          lengthUnit={units.lengthUnit}
          typed={now.surfaceRadiusMm ?? ''}
          hint="Of the face the tube wraps on, as made, measured with a template"
          {...field('surfaceRadiusMm')}
        />
        <LengthField
          label="Groove width"
          optional
          lengthUnit={units.lengthUnit}
          typed={now.grooveWidthMm ?? ''}
          hint="The tube width it takes"
          {...field('grooveWidthMm')}
        />
        <NumberField
          label="Arc"
          optional
          unit="°"
          hint="How far round the radius goes"
          understood={arc?.ok ? arc.echo : ''}
          {...field('arcDeg')}
        />
        <TextField label="Place" maxLength={80} hint="Rack, shelf or hook" {...field('place')} />
        <TextArea label="Notes" rows={3} maxLength={2000} {...field('notesText')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {saved ? 'Save' : 'Add the die'}
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
