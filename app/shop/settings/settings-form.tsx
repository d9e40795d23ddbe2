'use client'

import { useWatch } from 'react-hook-form'
import type { z } from 'zod'
import { LengthField } from '@/app/_shop/length-field'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { NumberField, SelectField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import type { ShopUnits } from '@/lib/records/fields'
import { offeredCurrencies, shopForm } from '@/lib/records/shop/schema'
import { changeShopAction } from '../actions'

export function SettingsForm({
  mayChange,
  units,
  timeZones,
  start,
}: {
  mayChange: boolean
  units: ShopUnits
  timeZones: readonly string[]
  start: z.input<ReturnType<typeof shopForm>>
}) {
  const { form, field, submit, status, saving } = useRecordForm({
    schema: shopForm(units),
    start,
    action: changeShopAction,
  })
  const [gripMm, trimMm, kerfMm] = useWatch({
    control: form.control,
    name: ['gripMm', 'trimMm', 'kerfMm'],
  })
  const { lengthUnit } = units
  const currencies = [...new Set([start.currency, ...offeredCurrencies])]
  return (
    <form method="post" onSubmit={submit} noValidate>
      <fieldset className="stack stack-loose" disabled={!mayChange}>
        <Section title="Letterhead">
          <div className="fields">
            <TextField label="Name of the shop" maxLength={80} {...field('name')} />
            <TextArea label="Address" rows={3} maxLength={400} {...field('addressText')} />
            <TextArea label="Telephone, mail" rows={2} maxLength={400} {...field('contactText')} />
          </div>
        </Section>
        <Section title="How the shop writes">
          <div className="fields">
            <SelectField
              label="Lengths in"
              choices={[
                { value: 'in', label: 'inches' },
                { value: 'mm', label: 'millimetres' },
              ]}
              hint="What a number without a unit means; the other can always be typed"
              {...field('lengthUnit')}
            />
            <SelectField
              label="Money in"
              choices={currencies.map((code) => ({ value: code, label: code }))}
              hint="Stays once there is a price"
              {...field('currency')}
            />
            <SelectField
              label="Paper"
              choices={[
                { value: 'letter', label: 'Letter' },
                { value: 'a4', label: 'A4' },
              ]}
              {...field('paper')}
            />
            <SelectField
              label="Time zone"
              choices={timeZones.map((zone) => ({
                value: zone,
                label: zone.replaceAll('_', ' '),
              }))}
              {...field('timeZone')}
            />
          </div>
        </Section>
        <Section title="Quotes">
          <div className="fields">
            <TextField label="Name of the tax" maxLength={40} {...field('taxName')} />
            <NumberField label="Tax" unit="%" inputMode="decimal" {...field('taxPpm')} />
            <NumberField
              label="A quote holds for"
              unit="days"
              inputMode="numeric"
              {...field('quoteValidDays')}
            />
            <TextArea
              label="Terms"
              rows={6}
              maxLength={4000}
              hint="Stand at the foot of every quote"
              {...field('quoteTermsText')}
            />
          </div>
        </Section>
        <Section title="Every bend spec">
          <div className="fields">
            <NumberField
              label="A bend may use of a press"
              unit="%"
              inputMode="decimal"
              hint="The share of the rated force up to which a bend is let through"
              {...field('pressUseFraction')}
            />
            <LengthField
              label="Grip at each end"
              lengthUnit={lengthUnit}
              typed={gripMm}
              hint="Held while bending and cut off after"
              {...field('gripMm')}
            />
            <LengthField
              label="Trim at each end"
              lengthUnit={lengthUnit}
              typed={trimMm}
              hint="Left on for the last cut"
              {...field('trimMm')}
            />
            <LengthField
              label="Saw kerf"
              lengthUnit={lengthUnit}
              typed={kerfMm}
              hint="What each cut turns to chips"
              {...field('kerfMm')}
            />
          </div>
        </Section>
        <div className="form-foot">
          {mayChange ? (
            <Button type="submit" kind="primary" pending={saving}>
              Save the settings
            </Button>
          ) : (
            <p className="muted">Only the owner changes these.</p>
          )}
          <FormStatus status={status} />
        </div>
      </fieldset>
    </form>
  )
}
