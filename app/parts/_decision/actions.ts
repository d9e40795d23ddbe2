'use server'

import { decideForm } from '@/lib/records/decision/schema'
import { decide } from '@/lib/records/decision/write'
import { formAction } from '@/lib/server/action'

export const decideAction = formAction('decision.write', decideForm, (input, actor) => decide(input, actor))
