'use server'

import { z } from 'zod'
import { ownPasswordForm, ownPinForm } from '@/lib/records/person/schema'
import { changeOwnPassword, removeOwnPin, setOwnPin } from '@/lib/records/person/write'
import { endOwnSessions } from '@/lib/records/session/write'
import { formAction } from '@/lib/server/action'

export const changePasswordAction = formAction('own.password', ownPasswordForm, (input, actor) =>
  changeOwnPassword(input, actor),
)
export const setPinAction = formAction('own.password', ownPinForm, (input, actor) => setOwnPin(input, actor))
export const removePinAction = formAction('own.password', z.object({}), (_input, actor) =>
  removeOwnPin(actor),
)
export const endOwnSessionsAction = formAction('own.password', z.object({}), (_input, actor) =>
  endOwnSessions(actor),
)
