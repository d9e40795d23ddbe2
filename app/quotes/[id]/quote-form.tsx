'use client'

import { useRouter } from 'next/navigation'
import { useEffect } from 'react'
import { useFieldArray, useWatch } from 'react-hook-form'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { DateField, NumberField, SelectField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import type { PriceRounding } from '@/lib/core/cost/money'
import type { ShopUnits } from '@/lib/records/fields'
import { type QuoteTyped, quoteForm, taxText } from '@/lib/records/quote/schema'
import { addLineAction, saveQuoteAction } from '../actions'
import { type LineFacts, LineFields } from './line-fields'

type Props = {
  units: ShopUnits
  start: QuoteTyped
  lines: readonly LineFacts[]
  rounding: PriceRounding
  otherParts: readonly { revisionId: number; label: string }[]
  /** Told whenever what is typed is, or is no longer, more than what is saved. */
  onUnsaved: (unsaved: boolean) => void
  /** Told the version that a save made, before the page is fetched anew. */
  onVersion: (version: number) => void
}

/** A draft as a whole: its lines with their quantities and prices, terms, last day. */
export function QuoteForm({ units, start, lines, rounding, otherParts, onUnsaved, onVersion }: Props) {
  const router = useRouter()
  const { form, field, submit, status, saving } = useRecordForm({
    schema: quoteForm(units),
    start,
    action: saveQuoteAction,
    onSaved: ({ version }) => {
      onVersion(version)
      router.refresh()
    },
  })
  const { isDirty } = form.formState
  useEffect(() => onUnsaved(isDirty), [isDirty, onUnsaved])
  const { fields: rows, remove } = useFieldArray({ control: form.control, name: 'lines', keyName: 'rowKey' })
  const [watched, taxName, taxPercent] = useWatch({
    control: form.control,
    name: ['lines', 'taxName', 'taxPpm'],
  })
  const typedTax = taxText.safeParse(taxPercent)
  const tax = { name: taxName, ppm: typedTax.success ? typedTax.data : 0 }
  const addPart = async (revisionId: string) => {
    if (revisionId === '') return
    const outcome = await addLineAction({ id: start.id, version: form.getValues('version'), revisionId })
    if (outcome.ok) router.refresh()
    else form.setError('root', { message: outcome.message })
  }
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      {rows.map((row, index) => (
        <LineFields
          key={row.rowKey}
          index={index}
          form={form}
          field={field}
          facts={lines.find(({ id }) => id === row.id)}
          typed={watched?.[index]}
          units={units}
          tax={tax}
          rounding={rounding}
          onRemove={rows.length > 1 ? () => remove(index) : undefined}
        />
      ))}
      {otherParts.length > 0 && (
        <SelectField
          label="Add another part of this customer"
          hint="Save what you typed first: adding a part opens the quote afresh."
          placeholder="Choose a part"
          disabled={form.formState.isDirty}
          choices={otherParts.map(({ revisionId, label }) => ({ value: String(revisionId), label }))}
          value=""
          onChange={(event) => void addPart(event.target.value)}
          error={form.formState.errors.root?.message}
        />
      )}
      <Section title="Terms">
        <div className="fields">
          <DateField label="Valid until" {...field('validUntil')} />
          <NumberField
            label="Tax"
            unit="%"
            inputMode="decimal"
            hint="0 where this customer pays none"
            {...field('taxPpm')}
          />
          <TextField label="Tax is called" maxLength={40} {...field('taxName')} />
          <TextArea label="Note to the customer" rows={3} {...field('noteText')} />
          <TextArea label="Terms" rows={4} {...field('termsText')} />
        </div>
      </Section>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Save the draft
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
