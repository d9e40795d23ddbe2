'use client'

import { filled } from '@/app/_shop/filled'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { FieldError, TextArea } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { type DecideTyped, decideForm } from '@/lib/records/decision/schema'
import { decideAction } from './actions'

/** The choice and why; the comparison that is on the screen is kept with it. */
export function DecideForm({
  start,
  choices,
}: {
  start: DecideTyped
  choices: readonly { key: string; label: string; note: string }[]
}) {
  const { form, field, submit, status, saving } = useRecordForm<DecideTyped, { id: number }>({
    schema: decideForm,
    start,
    action: decideAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <fieldset className="stack stack-tight">
        <legend className="strong">How will it be made?</legend>
        {choices.map(({ key, label, note }) => (
          <label key={key} className="check">
            <input type="radio" {...filled(form, 'chosen', key)} />
            <span>
              {label} <span className="muted small">{note}</span>
            </span>
          </label>
        ))}
        <FieldError id="chosen" error={form.formState.errors.chosen?.message} />
      </fieldset>
      <TextArea
        label="Why"
        rows={3}
        maxLength={2000}
        hint="Kept with the comparison as it stands now, for whoever asks later"
        {...field('whyText')}
      />
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Keep this decision
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
