'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Button } from '@/app/_ui/button'
import { FileField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { addPartFileAction } from './actions'

/** Attaches a drawing: kept and given back byte for byte. */
export function FileForm({ partId }: { partId: number }) {
  const router = useRouter()
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const send = async (form: FormData) => {
    setStatus({ state: 'saving' })
    form.set('partId', String(partId))
    const outcome = await addPartFileAction(form).catch(() => null)
    if (outcome === null)
      setStatus({ state: 'not-sent', message: 'Not saved: the shop’s computer did not answer.' })
    else if (outcome.ok) {
      setStatus({ state: 'saved' })
      router.refresh()
    } else setStatus({ state: 'refused', message: outcome.fields.file ?? outcome.message })
  }
  return (
    <form action={(form) => void send(form)} className="stack stack-tight">
      <FileField
        label="Attach a drawing"
        name="file"
        hint="PDF, PNG, JPEG, DXF or STEP, at most 25 MB"
        accept=".pdf,.png,.jpg,.jpeg,.dxf,.step,.stp"
        required
      />
      <div className="form-foot">
        <Button type="submit" pending={status.state === 'saving'}>
          Attach
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
