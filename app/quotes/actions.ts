'use server'

import {
  addLineForm,
  followUpForm,
  lostForm,
  newQuoteForm,
  openJobForm,
  quoteForm,
  quotePress,
} from '@/lib/records/quote/schema'
import {
  addQuoteLine,
  createQuote,
  markQuoteLost,
  openAcceptedLine,
  renewLink,
  reviseQuote,
  saveQuote,
  sendQuote,
  setFollowUp,
  withdrawQuote,
} from '@/lib/records/quote/write'
import { wonForm } from '@/lib/records/quote-answer/schema'
import { logAcceptance } from '@/lib/records/quote-answer/write'
import { formAction } from '@/lib/server/action'

export const createQuoteAction = formAction('quote.write', newQuoteForm, (input, actor) =>
  createQuote(input, actor),
)
export const addLineAction = formAction('quote.write', addLineForm, (input, actor) =>
  addQuoteLine(input, actor),
)
export const saveQuoteAction = formAction('quote.write', quoteForm, (input, actor) => saveQuote(input, actor))
export const sendQuoteAction = formAction('quote.write', quotePress, (input, actor) =>
  sendQuote(input, actor),
)
export const withdrawQuoteAction = formAction('quote.write', quotePress, (input, actor) =>
  withdrawQuote(input, actor),
)
export const reviseQuoteAction = formAction('quote.write', quotePress, (input, actor) =>
  reviseQuote(input, actor),
)
export const markLostAction = formAction('quote.write', lostForm, (input, actor) =>
  markQuoteLost(input, actor),
)
export const followUpAction = formAction('quote.write', followUpForm, (input, actor) =>
  setFollowUp(input, actor),
)
export const openJobAction = formAction('job.write', openJobForm, (input, actor) =>
  openAcceptedLine(input, actor),
)
export const renewLinkAction = formAction('quote.write', quotePress, (input, actor) =>
  renewLink(input, actor),
)
export const markWonAction = formAction('quote.write', wonForm, (input, actor) => logAcceptance(input, actor))
