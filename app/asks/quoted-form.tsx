'use client'

import { useFieldArray } from 'react-hook-form'
import { LengthField } from '@/app/_shop/length-field'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { CheckField, DateField, NumberField, TextArea } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { type QuotedTyped, quotedForm, workingDaysText } from '@/lib/records/ask/schema'
import type { ShopUnits } from '@/lib/records/fields'
import { logQuoteAction } from './actions'

/** Their prices as they gave them; logged again, the earlier ones stay in the history. */
export function QuotedForm({
  units,
  start,
  again,
  rejectsSoFar,
}: {
  units: ShopUnits
  start: QuotedTyped
  /** An earlier answer is replaced. */
  again: boolean
  /** What of their deliveries was turned away, where any is known. */
  rejectsSoFar?: string
}) {
  const { form, field, submit, status, saving } = useRecordForm<QuotedTyped, { version: number }>({
    schema: quotedForm(units),
    start,
    action: logQuoteAction,
  })
  const leadTime = workingDaysText.safeParse(form.watch('leadTimeDays'))
  const prices = useFieldArray({ control: form.control, name: 'prices' })
  const money = { unit: units.currency, inputMode: 'decimal' } as const
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <DateField label="Their answer came on" {...field('repliedOn')} />
        <DateField label="Prices hold until" optional {...field('validUntil')} />
        <NumberField
          label="Lead time"
          unit="working days"
          hint="4 weeks and 28 calendar days are understood too"
          understood={leadTime.success ? `${leadTime.data} working days` : ''}
          {...field('leadTimeDays')}
        />
      </div>
      <fieldset className="stack">
        <legend className="strong">Price each, by quantity</legend>
        {prices.fields.map((price, index) => (
          <div key={price.id} className="fields">
            <NumberField
              label={`From pieces, step ${index + 1}`}
              inputMode="numeric"
              {...field(`prices.${index}.quantity`)}
            />
            <NumberField
              label={`Price each, step ${index + 1}`}
              {...money}
              {...field(`prices.${index}.unitCents`)}
            />
            {prices.fields.length > 1 && (
              <div className="row">
                <Button kind="quiet" onClick={() => prices.remove(index)}>
                  Remove step {index + 1}
                </Button>
              </div>
            )}
          </div>
        ))}
        {prices.fields.length < 12 && (
          <div className="row">
            <Button onClick={() => prices.append({ quantity: '', unitCents: '' })}>Add a step</Button>
          </div>
        )}
        {form.formState.errors.prices?.root?.message && (
          <p className="stop-text" role="alert">
            {form.formState.errors.prices.root.message}
          </p>
        )}
      </fieldset>
      <div className="fields">
        <NumberField label="Tooling, once" {...money} {...field('toolingCents')} />
        <NumberField label="Set-up, each order" {...money} {...field('setUpCents')} />
        <NumberField
          label="Minimum order"
          hint="Least they bill for pieces; 0: none"
          {...money}
          {...field('minimumOrderCents')}
        />
        <NumberField label="Freight" {...money} {...field('freightCents')} />
        <NumberField
          label="Material we supply, each piece"
          hint="Tube they bend for us; 0: they bring it"
          {...money}
          {...field('suppliedCentsPerPiece')}
        />
        <LengthField
          label="Radius they would really make"
          hint="Leave empty where it is as drawn"
          lengthUnit={units.lengthUnit}
          typed={form.watch('offeredRadiusMm')}
          {...field('offeredRadiusMm')}
        />
        <NumberField
          label="Share we expect to turn away"
          hint={rejectsSoFar}
          unit="%"
          inputMode="decimal"
          {...field('expectedRejectPct')}
        />
        <CheckField label="They replace what we turn away at their cost" wide {...field('replacesRejects')} />
        <TextArea
          label="Conditions"
          rows={3}
          maxLength={2000}
          hint="Alloy or temper they would bend, stock we supply, what they leave out"
          {...field('conditionsText')}
        />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {again ? 'Log the new prices' : 'Log their prices'}
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
