'use client'

import { useState } from 'react'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { roleWords } from '@/lib/records/person/rules'
import { inviteForm } from '@/lib/records/person/schema'
import { inviteAction } from './actions'
import { EmailField } from './email-field'
import { ShownLink } from './shown-link'

export const roleChoices = Object.entries(roleWords).map(([value, { label, meaning }]) => ({
  value,
  label: `${label}: ${meaning.toLowerCase()}`,
}))

export function InviteForm() {
  const [made, setMade] = useState<{ linkPath: string; mailed: string; name: string } | null>(null)
  const { field, submit, status, saving } = useRecordForm({
    schema: inviteForm,
    start: { name: '', login: '', role: 'bench' as const, email: '' },
    action: async (typed) => {
      const outcome = await inviteAction(typed)
      if (outcome.ok) {
        const { linkPath, mailed } = outcome.value
        setMade({ linkPath, mailed, name: typed.name })
      }
      return outcome
    },
    emptyAfter: true,
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
          Make the account and its link
        </Button>
        <FormStatus
          status={status.state === 'saved' ? { state: 'saved', message: 'Account made' } : status}
        />
      </div>
      {made && <ShownLink key={made.linkPath} {...made} />}
    </form>
  )
}
