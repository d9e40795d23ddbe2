'use server'

import { acceptForm, declineForm } from '@/lib/records/quote-answer/schema'
import { acceptQuote, declineQuote } from '@/lib/records/quote-answer/write'
import { postAction } from '@/lib/server/post-action'

export const acceptQuoteAction = postAction('accept a quote', acceptForm, async (input) => {
  await acceptQuote(input)
  return `/q/${encodeURIComponent(input.token)}`
})

export const declineQuoteAction = postAction('decline a quote', declineForm, async (input) => {
  await declineQuote(input)
  return `/q/${encodeURIComponent(input.token)}`
})
