'use client'

import './part.css'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { FormProvider } from 'react-hook-form'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button, LinkButton } from '@/app/_ui/button'
import { SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import type { ShopUnits } from '@/lib/records/fields'
import { newPartForm, type PartTyped, partForm } from '@/lib/records/part/schema'
import { addPartAction, changePartAction } from './actions'
import { BendFields } from './bend-fields'
import { DemandFields } from './demand-fields'
import { EndFields } from './end-fields'
import { LiveDrawing } from './live-drawing'
import { type MaterialOption, TubeFields } from './tube-fields'

type Saved = { id: number; version: number }

/** A part from the customer's drawing: the same form enters a new one and changes one. */
export function PartForm({
  start,
  saved,
  units,
  customers,
  materials,
  saveLabel,
}: {
  start: PartTyped
  /** The part this changes, at the version it was opened. */
  saved?: Saved
  units: ShopUnits
  customers: readonly { id: number; name: string }[]
  materials: readonly MaterialOption[]
  saveLabel: string
}) {
  const router = useRouter()
  const [selectedBend, setSelectedBend] = useState<number | null>(null)
  const { form, field, submit, status, saving } = useRecordForm<PartTyped & Partial<Saved>, Saved>({
    schema: saved ? partForm(units) : newPartForm(units),
    start: { ...start, ...saved },
    action: (typed) => (saved ? changePartAction(typed) : addPartAction(typed)),
    onSaved: ({ id }) => router.push(`/parts/${id}`),
  })
  const { lengthUnit } = units
  const selecting = { selectedBend, onSelectBend: setSelectedBend }
  return (
    <FormProvider {...form}>
      <form method="post" onSubmit={submit} className="part-form" noValidate>
        <div className="part-form-first stack">
          <Section title="Whose part">
            <div className="fields">
              <SelectField
                label="Customer"
                placeholder="Choose"
                choices={customers.map(({ id, name }) => ({ value: String(id), label: name }))}
                {...field('customerId')}
              />
              <TextField label="Name of the part" maxLength={120} autoComplete="off" {...field('name')} />
              <TextField
                label="The customer’s number"
                optional
                maxLength={80}
                autoComplete="off"
                {...field('customerRef')}
              />
            </div>
          </Section>
          <TubeFields lengthUnit={lengthUnit} materials={materials} />
        </div>
        <div className="part-form-drawing">
          {/* Beside the fields it scrolls within itself, so it takes the keyboard. */}
          <section tabIndex={0} aria-label="The part as typed so far">
            <LiveDrawing lengthUnit={lengthUnit} {...selecting} />
          </section>
        </div>
        <div className="part-form-rest stack">
          <BendFields lengthUnit={lengthUnit} {...selecting} />
          <EndFields lengthUnit={lengthUnit} />
          <DemandFields lengthUnit={lengthUnit} />
          <div className="form-foot">
            <Button type="submit" kind="primary" pending={saving}>
              {saveLabel}
            </Button>
            <LinkButton kind="quiet" href={saved ? `/parts/${saved.id}` : '/parts'}>
              Leave without saving
            </LinkButton>
            <FormStatus status={status} />
          </div>
        </div>
      </form>
    </FormProvider>
  )
}
