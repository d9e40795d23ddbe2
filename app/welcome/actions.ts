'use server'

import { welcomeForm } from '@/lib/records/person/schema'
import { acceptLink } from '@/lib/records/person/write'
import { postAction } from '@/lib/server/post-action'

export const acceptLinkAction = postAction('set a password by link', welcomeForm, async (input) => {
  await acceptLink(input)
  return '/'
})
