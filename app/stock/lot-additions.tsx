'use client'

import { useState } from 'react'
import { useWatch } from 'react-hook-form'
import { LengthField } from '@/app/_shop/length-field'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { FileField, NumberField, TextField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import type { ShopUnits } from '@/lib/records/fields'
import { byteText, mostFileBytes } from '@/lib/records/file/rules'
import { addBarsForm } from '@/lib/records/stock/schema'
import { addBarsAction, addCertificateAction } from './actions'

export function AddBarsForm({ lotId, units }: { lotId: number; units: ShopUnits }) {
  const { form, field, submit, status, saving } = useRecordForm({
    schema: addBarsForm(units),
    start: { lotId: String(lotId), barCount: '1', lengthMm: '', place: '' },
    action: addBarsAction,
    emptyAfter: true,
  })
  const length = useWatch({ control: form.control, name: 'lengthMm' })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <NumberField label="How many" inputMode="numeric" {...field('barCount')} />
        <LengthField
          label="Length of each"
          lengthUnit={units.lengthUnit}
          typed={length ?? ''}
          {...field('lengthMm')}
        />
        <TextField label="Place" maxLength={80} hint="Left empty: the lot’s" {...field('place')} />
      </div>
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Add to the rack
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

const failed = 'The shop’s computer did not answer. The file is still chosen; try again.'

export function CertificateForm({ lotId, replaces }: { lotId: number; replaces: boolean }) {
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const [error, setError] = useState<string>()
  const send = async (form: HTMLFormElement) => {
    const typed = new FormData(form)
    typed.set('lotId', String(lotId))
    const file = typed.get('file')
    setError(undefined)
    if (!(file instanceof File) || file.size === 0) return setError('Choose a file first')
    if (file.size > mostFileBytes) return setError(`At most 25 MB; this one has ${byteText(file.size)}`)
    setStatus({ state: 'saving', message: `Sending ${file.name}, ${byteText(file.size)}` })
    const outcome = await addCertificateAction(typed).catch(() => null)
    if (outcome === null) return setStatus({ state: 'not-sent', message: failed })
    if (outcome.ok) {
      form.reset()
      return setStatus({ state: 'saved', message: 'Attached' })
    }
    setError(outcome.fields.file)
    setStatus({ state: 'refused', message: outcome.message })
  }
  return (
    <form
      className="stack"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        void send(event.currentTarget)
      }}
    >
      <div className="fields">
        <FileField
          label={replaces ? 'Attach another in its place' : 'Attach the certificate'}
          name="file"
          accept=".pdf,.png,.jpg,.jpeg"
          hint="PDF, PNG or JPEG, at most 25 MB; kept byte for byte"
          error={error}
          wide
        />
      </div>
      <div className="form-foot">
        <Button type="submit" pending={status.state === 'saving'}>
          Attach
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
