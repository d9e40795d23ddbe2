'use client'

import { PressAction } from '@/app/_shop/press-action'
import { deactivateAction, endSessionAction, reactivateAction, revokeDeviceAction } from './actions'

export function EndSession({ tokenHash, who }: { tokenHash: string; who: string }) {
  return (
    <PressAction label="Sign out" name={who} kind="stop" input={{ tokenHash }} action={endSessionAction} />
  )
}

export function RevokeDevice({ id, name, here }: { id: number; name: string; here: boolean }) {
  return (
    <PressAction
      label={here ? 'Revoke this device' : 'Revoke'}
      name={name}
      kind="stop"
      input={{ id }}
      action={revokeDeviceAction}
    />
  )
}

/** Ending an account is undone by the same press the other way. */
export function AccountPress({ person }: { person: { id: number; active: boolean } }) {
  const input = { id: person.id }
  return person.active ? (
    <PressAction key="end" label="End this account" kind="stop" input={input} action={deactivateAction} />
  ) : (
    <PressAction key="restore" label="Restore this account" input={input} action={reactivateAction} />
  )
}
