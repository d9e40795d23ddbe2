'use client'

import { useState } from 'react'
import { FileField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import type { Outcome } from './use-record-form'

/** Sends a picture as soon as it is chosen or taken, and says what came of it. */
export function PictureUpload({
  label,
  hint,
  more = {},
  action,
}: {
  label: string
  hint: string
  /** What is posted beside the file. */
  more?: Readonly<Record<string, string>>
  action: (typed: FormData) => Promise<Outcome<unknown>>
}) {
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const send = async (file: File) => {
    setStatus({ state: 'saving' })
    const typed = new FormData()
    for (const [name, value] of Object.entries(more)) typed.set(name, value)
    typed.set('file', file)
    const outcome = await action(typed).catch(() => null)
    if (outcome === null)
      setStatus({ state: 'not-sent', message: 'Not kept: the shop’s computer did not answer. Try again.' })
    else if (outcome.ok) setStatus({ state: 'saved', message: 'Picture kept' })
    else setStatus({ state: 'refused', message: outcome.fields.file ?? outcome.message })
  }
  return (
    <div className="stack stack-tight">
      <FileField
        label={label}
        hint={hint}
        accept="image/jpeg,image/png"
        onChange={(event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file) void send(file)
        }}
      />
      <FormStatus status={status} />
    </div>
  )
}
