'use client'

import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import type { RoleName } from '@/lib/records/person/rules'
import { personForm } from '@/lib/records/person/schema'
import { changePersonAction } from '../actions'
import { EmailField } from '../email-field'
import { roleChoices } from '../invite-form'

export function PersonForm({
  person,
}: {
  person: { id: number; version: number; name: string; login: string; role: RoleName; email: string }
}) {
  const { field, submit, status, saving } = useRecordForm({
    schema: personForm,
    start: person,
    action: changePersonAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <TextField label="Name" maxLength={80} autoComplete="off" {...field('name')} />
        <TextField
          label="Sign-in name"
          maxLength={60}
          autoComplete="off"
          autoCapitalize="none"
          spellCheck={false}
          {...field('login')}
        />
        <EmailField {...field('email')} />
        <SelectField label="Role" choices={roleChoices} wide {...field('role')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Save
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
