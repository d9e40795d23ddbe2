'use client'

import { useActionState } from 'react'
import { Button } from '@/app/_ui/button'
import { FieldError, NumberField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import { acceptQuoteAction, declineQuoteAction } from './actions'

type Line = { id: number; label: string; quantities: readonly number[] }

/** Yes or no, with a name and a note. Works before any script has loaded. */
export function AnswerForms({ token, lines }: { token: string; lines: readonly Line[] }) {
  const [yes, accept, accepting] = useActionState(acceptQuoteAction, null)
  const [no, decline, declining] = useActionState(declineQuoteAction, null)
  return (
    <div className="split split-even no-print">
      <Section title="Accept">
        <form action={accept} className="stack" noValidate>
          <input type="hidden" name="token" value={token} />
          {lines.map((line) => {
            const name = `quantity-${line.id}`
            return (
              <NumberField
                key={line.id}
                label={`How many of ${line.label}`}
                unit="pieces"
                inputMode="numeric"
                name={name}
                hint={`At least ${Math.min(...line.quantities)}; leave empty for none`}
                defaultValue={
                  yes?.typed[name] ??
                  // A list of quantities is a choice: none of them is made for the customer.
                  (lines.length === 1 && line.quantities.length === 1 ? String(line.quantities[0] ?? '') : '')
                }
                error={yes?.fields[name]}
              />
            )
          })}
          <FieldError id="choices" error={yes?.fields.choices} />
          <TextField
            label="Your name"
            name="name"
            autoComplete="name"
            maxLength={120}
            defaultValue={yes?.typed.name}
            error={yes?.fields.name}
          />
          <TextArea
            label="Note, purchase order number"
            name="note"
            rows={2}
            defaultValue={yes?.typed.note}
            error={yes?.fields.note}
          />
          <div className="form-foot">
            <Button type="submit" kind="primary" pending={accepting}>
              Accept this quote
            </Button>
            {yes && <FormStatus status={{ state: 'refused', message: yes.message }} />}
          </div>
        </form>
      </Section>
      <Section title="Decline">
        <form action={decline} className="stack" noValidate>
          <input type="hidden" name="token" value={token} />
          <TextField
            label="Your name"
            name="name"
            autoComplete="name"
            maxLength={120}
            defaultValue={no?.typed.name}
            error={no?.fields.name}
          />
          <TextArea
            label="Why, if you like to say"
            name="note"
            rows={2}
            defaultValue={no?.typed.note}
            error={no?.fields.note}
          />
          <div className="form-foot">
            <Button type="submit" pending={declining}>
              Decline
            </Button>
            {no && <FormStatus status={{ state: 'refused', message: no.message }} />}
          </div>
        </form>
      </Section>
    </div>
  )
}
