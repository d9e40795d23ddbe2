'use client'

import { PressAction } from '@/app/_shop/press-action'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { ownPasswordForm, ownPinForm } from '@/lib/records/person/schema'
import { changePasswordAction, endOwnSessionsAction, removePinAction, setPinAction } from './actions'

export function PasswordForm({ login }: { login: string }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: ownPasswordForm,
    start: { current: '', next: '', again: '' },
    action: changePasswordAction,
    emptyAfter: true,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <input
        className="visually-hidden"
        aria-hidden="true"
        tabIndex={-1}
        autoComplete="username"
        value={login}
        readOnly
      />
      <div className="fields">
        <TextField
          label="Password now"
          type="password"
          autoComplete="current-password"
          {...field('current')}
        />
        <TextField label="New password" type="password" autoComplete="new-password" {...field('next')} />
        <TextField
          label="New password again"
          type="password"
          autoComplete="new-password"
          {...field('again')}
        />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Change the password
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

export function PinSection({ hasPin }: { hasPin: boolean }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: ownPinForm,
    start: { current: '', pin: '', again: '' },
    action: setPinAction,
    emptyAfter: true,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <p>
        {hasPin ? 'You have a PIN.' : 'You have no PIN.'} It signs you in to the bench’s screens on devices
        the owner has admitted, and nowhere else.
      </p>
      <div className="fields">
        <TextField
          label="Your password"
          type="password"
          autoComplete="current-password"
          {...field('current')}
        />
        <TextField
          label={hasPin ? 'New PIN' : 'PIN'}
          type="password"
          inputMode="numeric"
          autoComplete="off"
          maxLength={8}
          hint="Four to eight digits"
          {...field('pin')}
        />
        <TextField
          label="PIN again"
          type="password"
          inputMode="numeric"
          autoComplete="off"
          maxLength={8}
          {...field('again')}
        />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Set the PIN
        </Button>
        {hasPin && <PressAction label="Remove the PIN" input={{}} action={removePinAction} />}
        <FormStatus status={status} />
      </div>
    </form>
  )
}

export function EndOtherSessions() {
  return <PressAction label="Sign out everywhere else" kind="stop" input={{}} action={endOwnSessionsAction} />
}
