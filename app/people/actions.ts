'use server'

import { inviteForm, personForm, personPress } from '@/lib/records/person/schema'
import {
  changePerson,
  deactivatePerson,
  invitePerson,
  linkPerson,
  reactivatePerson,
} from '@/lib/records/person/write'
import { admitDeviceForm, devicePress, endSessionForm } from '@/lib/records/session/schema'
import { admitDevice, endSession, revokeDevice } from '@/lib/records/session/write'
import { formAction } from '@/lib/server/action'

export const inviteAction = formAction('person.write', inviteForm, (input, actor) =>
  invitePerson(input, actor),
)
export const changePersonAction = formAction('person.write', personForm, (input, actor) =>
  changePerson(input, actor),
)
export const deactivateAction = formAction('person.write', personPress, (input, actor) =>
  deactivatePerson(input, actor),
)
export const reactivateAction = formAction('person.write', personPress, (input, actor) =>
  reactivatePerson(input, actor),
)
export const linkAction = formAction('person.write', personPress, (input, actor) => linkPerson(input, actor))
export const endSessionAction = formAction('person.write', endSessionForm, (input, actor) =>
  endSession(input, actor),
)
export const admitDeviceAction = formAction('device.write', admitDeviceForm, (input, actor) =>
  admitDevice(input, actor),
)
export const revokeDeviceAction = formAction('device.write', devicePress, (input, actor) =>
  revokeDevice(input, actor),
)
