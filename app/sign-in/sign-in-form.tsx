'use client'

import { useActionState } from 'react'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { signInAction } from './actions'

export function SignInForm({ then }: { then: string }) {
  const [state, action, pending] = useActionState(signInAction, null)
  return (
    <form action={action} className="stack" noValidate>
      <input type="hidden" name="then" value={then} />
      <TextField
        label="Sign-in name"
        name="login"
        autoComplete="username"
        autoCapitalize="none"
        spellCheck={false}
        maxLength={200}
        defaultValue={state?.typed.login ?? ''}
        error={state?.fields.login}
      />
      <TextField
        label="Password"
        name="password"
        type="password"
        autoComplete="current-password"
        maxLength={200}
        error={state?.fields.password}
      />
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={pending} pendingLabel="Signing in">
          Sign in
        </Button>
        <FormStatus status={state ? { state: 'refused', message: state.message } : { state: 'idle' }} />
      </div>
    </form>
  )
}
