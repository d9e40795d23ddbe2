'use server'

import { acceptForm, declineForm, openedForm } from '@/lib/records/quote-answer/schema'
import { acceptQuote, declineQuote, noteQuoteRead } from '@/lib/records/quote-answer/write'
import { postAction } from '@/lib/server/post-action'

export const acceptQuoteAction = postAction('accept a quote', acceptForm, async (input) => {
  await acceptQuote(input)
  return `/q/${encodeURIComponent(input.token)}`
})

export const declineQuoteAction = postAction('decline a quote', declineForm, async (input) => {
  await declineQuote(input)
  return `/q/${encodeURIComponent(input.token)}`
})

/** Told by the page once it stands before somebody: what only fetches links, as mail filters do, says nothing. */
export async function noteOpenedAction(token: unknown): Promise<void> {
  const parsed = openedForm.safeParse({ token })
  if (parsed.success) await noteQuoteRead(parsed.data.token)
}
