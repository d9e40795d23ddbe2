'use client'

import { useRouter } from 'next/navigation'
import { filled } from '@/app/_shop/filled'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { FieldError } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { newQuoteForm } from '@/lib/records/quote/schema'
import { createQuoteAction } from '../actions'

type Part = { id: number; number: string; name: string; revision: { id: number; letter: string } }

export function NewQuoteForm({
  customerId,
  parts,
  chosenPartId,
}: {
  customerId: number
  parts: readonly Part[]
  chosenPartId: number | null
}) {
  const router = useRouter()
  const chosen = parts
    .filter(({ id }) => id === chosenPartId || parts.length === 1)
    .map(({ revision }) => String(revision.id))
  const { form, submit, status, saving } = useRecordForm({
    schema: newQuoteForm,
    start: { customerId: String(customerId), revisionIds: chosen },
    action: createQuoteAction,
    onSaved: ({ id }) => router.push(`/quotes/${id}`),
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <fieldset className="stack stack-tight">
        <legend className="strong">Which parts?</legend>
        {parts.map((part) => (
          <label key={part.id} className="check">
            <input type="checkbox" {...filled(form, 'revisionIds', String(part.revision.id))} />
            <span>
              <span className="mono">{part.number}</span> revision {part.revision.letter}: {part.name}
            </span>
          </label>
        ))}
        <FieldError id="parts" error={form.formState.errors.revisionIds?.message} />
      </fieldset>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Start the quote
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
