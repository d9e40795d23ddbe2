'use client'

import { useState } from 'react'
import { FileField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { faultPictureAction } from '@/app/jobs/actions'

/** Puts a picture to a fault as soon as it is chosen or taken. */
export function PictureForm({ faultId }: { faultId: number }) {
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const send = async (file: File) => {
    setStatus({ state: 'saving' })
    const typed = new FormData()
    typed.set('id', String(faultId))
    typed.set('file', file)
    const outcome = await faultPictureAction(typed).catch(() => null)
    if (outcome === null)
      setStatus({ state: 'not-sent', message: 'Not kept: the shop’s computer did not answer. Try again.' })
    else if (outcome.ok) setStatus({ state: 'saved', message: 'Picture kept' })
    else setStatus({ state: 'refused', message: outcome.fields.file ?? outcome.message })
  }
  return (
    <div className="stack stack-tight">
      <FileField
        label="Add a picture"
        hint="JPEG or PNG, at most 25 MB"
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
