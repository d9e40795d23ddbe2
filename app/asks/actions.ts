'use server'

import {
  chasedForm,
  declinedForm,
  noteForm,
  orderedForm,
  quotedForm,
  sendAsksForm,
  silentForm,
} from '@/lib/records/ask/schema'
import {
  chaseAsk,
  giveUpAsk,
  logDecline,
  logOrder,
  logQuote,
  noteAsk,
  sendAsks,
} from '@/lib/records/ask/write'
import { formAction } from '@/lib/server/action'

export const sendAsksAction = formAction('ask.write', sendAsksForm, (input, actor) => sendAsks(input, actor))
export const logQuoteAction = formAction('ask.write', quotedForm, (input, actor) => logQuote(input, actor))
export const logDeclineAction = formAction('ask.write', declinedForm, (input, actor) =>
  logDecline(input, actor),
)
export const chaseAskAction = formAction('ask.write', chasedForm, (input, actor) => chaseAsk(input, actor))
export const giveUpAskAction = formAction('ask.write', silentForm, (input, actor) => giveUpAsk(input, actor))
export const noteAskAction = formAction('ask.write', noteForm, (input, actor) => noteAsk(input, actor))
export const logOrderAction = formAction('ask.write', orderedForm, (input, actor) => logOrder(input, actor))
