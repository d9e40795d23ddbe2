'use server'

import { after } from 'next/server'
import { forgottenForm } from '@/lib/records/person/schema'
import { mailForgotten, noteForgotten } from '@/lib/records/person/write'
import { log } from '@/lib/server/log'
import { postAction } from '@/lib/server/post-action'

/** The account is looked for after the answer, which so can't tell by its time whether there is one. */
export const forgottenAction = postAction('ask for a link by mail', forgottenForm, async (input) => {
  await noteForgotten(input)
  after(() => mailForgotten(input).catch((cause: unknown) => log.error('link not mailed', cause)))
  return '/forgotten?asked=1'
})
