'use client'

import { useActionState } from 'react'
import { Button } from '@/app/_ui/button'
import { SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { pinSignInAction } from './actions'

export function PinForm({ then, people }: { then: string; people: readonly { id: number; name: string }[] }) {
  const [state, action, pending] = useActionState(pinSignInAction, null)
  return (
    <form action={action} className="stack" noValidate>
      <input type="hidden" name="then" value={then} />
      <SelectField
        key={state?.typed.userId ?? ''}
        label="Who are you?"
        name="userId"
        placeholder="Choose your name"
        choices={people.map(({ id, name }) => ({ value: String(id), label: name }))}
        defaultValue={state?.typed.userId ?? ''}
        error={state?.fields.userId}
      />
      <TextField
        label="PIN"
        name="pin"
        type="password"
        inputMode="numeric"
        autoComplete="off"
        maxLength={8}
        error={state?.fields.pin}
      />
      <div className="form-foot">
        <Button type="submit" kind="primary" big pending={pending} pendingLabel="Signing in">
          Sign in
        </Button>
        <FormStatus status={state ? { state: 'refused', message: state.message } : { state: 'idle' }} />
      </div>
    </form>
  )
}
