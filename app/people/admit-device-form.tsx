'use client'

import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { admitDeviceForm } from '@/lib/records/session/schema'
import { admitDeviceAction } from './actions'

export function AdmitDeviceForm() {
  const { field, submit, status, saving } = useRecordForm({
    schema: admitDeviceForm,
    start: { name: '' },
    action: admitDeviceAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <TextField
          label="Name of this device"
          maxLength={60}
          autoComplete="off"
          hint="Do this on the device itself, then sign out there."
          {...field('name')}
        />
      </div>
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Admit this device for PINs
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
