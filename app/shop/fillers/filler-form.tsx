'use client'

import { useWatch } from 'react-hook-form'
import type { z } from 'zod'
import { Button } from '@/app/_ui/button'
import { NumberField, SelectField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { formatStress } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import type { ShopUnits } from '@/lib/records/fields'
import { newFillerForm } from '@/lib/records/tooling/schema'
import { addFillerAction, changeFillerAction } from '../actions'
import { useToolForm } from '../use-tool-form'
import type { FillerChoice } from './filler-choices'

export type TypedFiller = z.input<ReturnType<typeof newFillerForm>>

export function FillerForm({
  units,
  choices,
  start,
  saved,
}: {
  units: ShopUnits
  choices: readonly FillerChoice[]
  start: TypedFiller
  /** The pot that is changed; left out to add one. */
  saved?: { id: number; version: number }
}) {
  const { form, field, submit, status, saving } = useToolForm<TypedFiller>({
    schema: newFillerForm(units),
    start,
    saved,
    add: addFillerAction,
    change: changeFillerAction,
    listHref: '/shop/fillers',
  })
  const chosenId = useWatch({ control: form.control, name: 'fillerId' })
  const alloy = choices.find(({ id }) => id === chosenId)
  const stressUnit = shopUnits[units.lengthUnit].stress
  const orTable = (text: string | undefined) => (text ? `Left empty: ${text}, the alloy’s` : undefined)
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <TextField
          label="Shop number"
          maxLength={20}
          hint="As marked on the pot: F-1"
          {...field('shopNumber')}
        />
        <TextField label="Name" maxLength={80} hint="Big pot by the tank" {...field('name')} />
        <SelectField
          label="What is in it"
          placeholder="Choose"
          choices={choices.map(({ id, name, isOwn }) => ({
            value: id,
            label: isOwn ? `${name}, the shop’s own` : name,
          }))}
          {...field('fillerId')}
        />
        <TextField label="Lot or supplier" optional maxLength={80} {...field('lotText')} />
        <NumberField
          label="Price a kilogram"
          unit={units.currency}
          inputMode="decimal"
          hint="What it costs to replace"
          {...field('priceCentsPerKg')}
        />
        <NumberField
          label="Density"
          optional
          unit="kg/m³"
          inputMode="decimal"
          hint={orTable(alloy && `${Math.round(alloy.densityKgM3)} kg/m³`)}
          {...field('densityKgM3')}
        />
        <NumberField
          label="Yield strength"
          optional
          unit={stressUnit}
          hint={orTable(alloy && formatStress(alloy.yieldMPa, { unit: stressUnit }))}
          {...field('yieldMPa')}
        />
        <NumberField
          label="Modulus"
          optional
          unit={stressUnit}
          hint={orTable(alloy && formatStress(alloy.elasticModulusMPa, { unit: stressUnit }))}
          {...field('modulusMPa')}
        />
        <TextArea label="Notes" rows={3} maxLength={2000} {...field('notesText')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {saved ? 'Save' : 'Add the pot'}
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
