'use client'

import { useRouter } from 'next/navigation'
import { useFieldArray, useWatch } from 'react-hook-form'
import { LengthField } from '@/app/_shop/length-field'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button, LinkButton } from '@/app/_ui/button'
import { DateField, NumberField, SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import { shopUnits } from '@/lib/core/shop-format'
import type { ShopUnits } from '@/lib/records/fields'
import { lotForm, type NewLotTyped, newLotForm } from '@/lib/records/stock/schema'
import { changeLotAction, receiveLotAction } from './actions'

export type MaterialOption = { id: string; name: string; family: string }

type Saved = { id: number; version: number }
type Typed = Omit<NewLotTyped, 'bars'> &
  Partial<Pick<NewLotTyped, 'bars'>> & { id?: string | number; version?: number }

const shapeChoices = [
  { value: 'square', label: 'Square' },
  { value: 'rectangular', label: 'Rectangular' },
  { value: 'round', label: 'Round' },
]

/** A delivery taken in, with its bars; or, with `saved`, what was noted of one put right. */
export function LotForm({
  units,
  materials,
  start,
  saved,
}: {
  units: ShopUnits
  materials: readonly MaterialOption[]
  start: Typed
  saved?: Saved
}) {
  const router = useRouter()
  const { form, field, submit, status, saving } = useRecordForm<Typed, { id: number }>({
    schema: saved ? lotForm(units) : newLotForm(units),
    start: saved ? { ...start, ...saved } : start,
    action: (typed) => (saved ? changeLotAction(typed) : receiveLotAction(typed)),
    onSaved: ({ id }) => router.push(`/stock/${id}`),
  })
  const now = useWatch({ control: form.control })
  const bars = useFieldArray({ control: form.control, name: 'bars' })
  const { lengthUnit, currency } = units
  const stress = shopUnits[lengthUnit].stress
  const families = [...new Set(materials.map(({ family }) => family))]
  return (
    <form method="post" onSubmit={submit} className="stack stack-loose" noValidate>
      <Section title="What came">
        <div className="fields">
          <SelectField label="Material and temper" placeholder="Choose" {...field('materialId')}>
            {families.map((family) => (
              <optgroup key={family} label={family}>
                {materials
                  .filter((material) => material.family === family)
                  .map(({ id, name }) => (
                    <option key={id} value={id}>
                      {name}
                    </option>
                  ))}
              </optgroup>
            ))}
          </SelectField>
          <SelectField label="Shape" choices={shapeChoices} {...field('shape')} />
          <LengthField
            label={now.shape === 'round' ? 'Outside diameter' : now.shape === 'square' ? 'Side' : 'Width'}
            lengthUnit={lengthUnit}
            typed={now.widthMm ?? ''}
            {...field('widthMm')}
          />
          {now.shape === 'rectangular' && (
            <LengthField
              label="Height"
              lengthUnit={lengthUnit}
              typed={now.heightMm ?? ''}
              {...field('heightMm')}
            />
          )}
          <LengthField
            label="Wall"
            hint="A gauge too: 11 ga"
            gauge
            lengthUnit={lengthUnit}
            typed={now.wallMm ?? ''}
            {...field('wallMm')}
          />
          {now.shape !== 'round' && (
            <LengthField
              label="Outside corner radius"
              optional
              lengthUnit={lengthUnit}
              typed={now.cornerRadiusMm ?? ''}
              {...field('cornerRadiusMm')}
            />
          )}
        </div>
      </Section>
      {!saved && (
        <Section title="Bars">
          <div className="stack">
            {bars.fields.map((bar, index) => (
              <div key={bar.id} className="fields">
                <NumberField
                  label={`How many${index > 0 ? ` (length ${index + 1})` : ''}`}
                  inputMode="numeric"
                  {...field(`bars.${index}.barCount`)}
                />
                <LengthField
                  label={`Length of each${index > 0 ? ` (length ${index + 1})` : ''}`}
                  hint="Feet too: 20'"
                  lengthUnit={lengthUnit}
                  typed={now.bars?.[index]?.lengthMm ?? ''}
                  {...field(`bars.${index}.lengthMm`)}
                />
                {bars.fields.length > 1 && (
                  <Button kind="quiet" onClick={() => bars.remove(index)}>
                    Remove length {index + 1}
                  </Button>
                )}
              </div>
            ))}
            <div className="row">
              <Button onClick={() => bars.append({ barCount: '1', lengthMm: '' })}>Add another length</Button>
            </div>
          </div>
        </Section>
      )}
      <Section title="Where from, where to">
        <div className="fields">
          <TextField
            label="Heat number"
            maxLength={60}
            hint="As stencilled on the bar or on the certificate; what ties a part to its metal"
            {...field('heatNumber')}
          />
          <TextField label="Supplier" maxLength={120} {...field('supplierText')} />
          <DateField label="Received" {...field('receivedOn')} />
          <NumberField label="Price" unit={currency} inputMode="decimal" {...field('priceCents')} />
          <SelectField
            label="for a"
            choices={[
              { value: 'ft', label: 'foot' },
              { value: 'm', label: 'metre' },
            ]}
            {...field('pricedBy')}
          />
          <TextField label="Place" maxLength={80} hint="Rack and arm" {...field('place')} />
        </div>
      </Section>
      <Section title="What its certificate says">
        <p className="muted">
          These take over from the table for every job cut from this lot alone: springback and force are then
          computed with the metal that is really there.
        </p>
        <div className="fields">
          <NumberField
            label="Yield"
            optional
            unit={stress}
            hint="0.2 % proof stress"
            {...field('certificateYieldMPa')}
          />
          <NumberField label="Tensile" optional unit={stress} {...field('certificateTensileMPa')} />
          <NumberField
            label="Elongation"
            optional
            unit="%"
            hint="On 50 mm or 2 in"
            {...field('certificateElongationPct')}
          />
        </div>
      </Section>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {saved ? 'Save the lot' : 'Put it on the rack'}
        </Button>
        <LinkButton kind="quiet" href={saved ? `/stock/${saved.id}` : '/stock'}>
          Leave without saving
        </LinkButton>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
