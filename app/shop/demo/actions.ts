'use server'

import { removeDemoForm } from '@/lib/records/demo/schema'
import { removeDemo } from '@/lib/records/demo/write'
import { formAction } from '@/lib/server/action'

export const removeDemoAction = formAction('demo.remove', removeDemoForm, (_input, actor) =>
  removeDemo(actor),
)
