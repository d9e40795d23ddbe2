'use client'

import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { NumberField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { type WonTyped, wonForm } from '@/lib/records/quote-answer/schema'
import { markWonAction } from '../actions'

/** A line that can be taken, from which quantity on, and whether that is the only one offered. */
export type OfferedLine = { id: string; label: string; least: number; isOnly: boolean }

/** A yes by mail or telephone: what they take of each line, and who said so. */
export function WonForm({
  press,
  lines,
}: {
  press: { id: string; version: number }
  lines: readonly OfferedLine[]
}) {
  const { field, submit, status, saving } = useRecordForm<WonTyped, { version: number }>({
    schema: wonForm,
    start: {
      ...press,
      name: '',
      note: '',
      choices: lines.map(({ id, least, isOnly }) => ({
        lineId: id,
        quantity: lines.length === 1 && isOnly ? String(least) : '',
      })),
    },
    action: markWonAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack stack-tight" noValidate>
      <h3>They said yes, by mail or telephone</h3>
      <div className="fields">
        {lines.map((line, index) => (
          <NumberField
            key={line.id}
            label={`Ordered of ${line.label}`}
            unit="pieces"
            inputMode="numeric"
            hint={`From ${line.least}; empty for none`}
            {...field(`choices.${index}.quantity`)}
          />
        ))}
        <TextField label="Who said yes" maxLength={120} {...field('name')} />
        <TextArea label="Their order number, why they took it" rows={2} maxLength={2000} {...field('note')} />
      </div>
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Note their yes
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
