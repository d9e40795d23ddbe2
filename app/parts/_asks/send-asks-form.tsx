'use client'

import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { CheckField, DateField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { sendAsksAction } from '@/app/asks/actions'
import { type SendAsksTyped, sendAsksForm } from '@/lib/records/ask/schema'

export type Choice = { id: number; name: string; hint: string; against: readonly string[] }

/** Asks several benders at once for prices of one revision. */
export function SendAsksForm({ start, choices }: { start: SendAsksTyped; choices: readonly Choice[] }) {
  const { form, field, submit, status, saving } = useRecordForm<SendAsksTyped, { ids: number[] }>({
    schema: sendAsksForm,
    start,
    action: sendAsksAction,
    emptyAfter: true,
  })
  const chosen = form.watch('sourceIds').map(String)
  const choose = (id: number, on: boolean) =>
    form.setValue('sourceIds', on ? [...chosen, String(id)] : chosen.filter((one) => one !== String(id)), {
      shouldDirty: true,
    })
  const missing = form.formState.errors.sourceIds?.message
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <fieldset className="stack">
        <legend className="strong">Whom to ask</legend>
        <div className="fields">
          {choices.map(({ id, name, hint, against }) => (
            <CheckField
              key={id}
              label={name}
              hint={against.length > 0 ? `${hint}. Careful: ${against.join(', ')}` : hint}
              checked={chosen.includes(String(id))}
              onChange={(event) => choose(id, event.target.checked)}
            />
          ))}
        </div>
        {missing && (
          <p className="stop-text" role="alert">
            {missing}
          </p>
        )}
      </fieldset>
      <div className="fields">
        <TextField label="Quantities" hint="Such as 1/5/20" autoComplete="off" {...field('quantities')} />
        <DateField label="Sent on" {...field('sentOn')} />
        <DateField label="Answer by, then chase" {...field('chaseOn')} />
        <TextArea
          label="Also needed, one a line"
          hint="Goes out with the request: name no customer here"
          rows={2}
          maxLength={2000}
          {...field('notesText')}
        />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Ask for prices
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
