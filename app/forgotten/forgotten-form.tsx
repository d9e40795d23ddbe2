'use client'

import { useActionState } from 'react'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { forgottenAction } from './actions'

export function ForgottenForm() {
  const [state, action, pending] = useActionState(forgottenAction, null)
  return (
    <form action={action} className="stack" noValidate>
      <TextField
        label="Sign-in name or e-mail"
        name="who"
        autoComplete="username"
        autoCapitalize="none"
        spellCheck={false}
        maxLength={254}
        defaultValue={state?.typed.who ?? ''}
        error={state?.fields.who}
      />
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={pending} pendingLabel="Sending">
          Mail me a link
        </Button>
        <FormStatus status={state ? { state: 'refused', message: state.message } : { state: 'idle' }} />
      </div>
    </form>
  )
}
