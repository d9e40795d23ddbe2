'use client'

import { useActionState } from 'react'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { acceptLinkAction } from '../actions'

export function WelcomeForm({ token, login }: { token: string; login: string }) {
  const [state, action, pending] = useActionState(acceptLinkAction, null)
  return (
    <form action={action} className="stack" noValidate>
      <input type="hidden" name="token" value={token} />
      {/* For the browser's own keeper of passwords: whose password this is. */}
      <input
        className="visually-hidden"
        aria-hidden="true"
        tabIndex={-1}
        autoComplete="username"
        value={login}
        readOnly
      />
      <TextField
        label="Password"
        name="password"
        type="password"
        autoComplete="new-password"
        maxLength={200}
        hint={state?.fields.password ? undefined : 'At least 10 characters: three or four words do well'}
        error={state?.fields.password}
      />
      <TextField
        label="The same again"
        name="passwordAgain"
        type="password"
        autoComplete="new-password"
        maxLength={200}
        error={state?.fields.passwordAgain}
      />
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={pending} pendingLabel="Signing in">
          Set the password and sign in
        </Button>
        <FormStatus status={state ? { state: 'refused', message: state.message } : { state: 'idle' }} />
      </div>
    </form>
  )
}
