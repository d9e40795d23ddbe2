import 'server-only'
import { revalidatePath } from 'next/cache'
import { redirect, unstable_rethrow } from 'next/navigation'
import type { z } from 'zod'
import { fieldMessages } from '@/lib/server/action'
import { type RefusalCode, Refused } from '@/lib/server/errors'
import { log } from '@/lib/server/log'
import { refusalOfTrouble } from '@/lib/server/trouble'

/** What a form that works without scripts shows after a refusal: the messages, and what was typed but for secrets. */
export type PostState = {
  code: RefusalCode
  message: string
  fields: Record<string, string>
  typed: Record<string, string>
} | null

const secret = /password|pin/i

/** Whoever calls an action by hand may send no form at all. */
function typedTexts(form: unknown): Record<string, string> {
  if (!(form instanceof FormData)) return {}
  const pairs = [...form].filter((pair): pair is [string, string] => typeof pair[1] === 'string')
  return Object.fromEntries(pairs.filter(([name]) => !name.startsWith('$ACTION')))
}

/**
 * An action for people who are not signed in: setting up, signing in, using a link. `run` checks who asks by what is
 * typed and answers where to go next. The form posts as plain HTML until the scripts are there, so that no password
 * ever ends up in an address.
 */
export function postAction<Schema extends z.ZodType>(
  name: string,
  schema: Schema,
  run: (input: z.output<Schema>) => Promise<string>,
): (before: PostState, form: FormData) => Promise<PostState> {
  return async (_before, form) => {
    const texts = typedTexts(form)
    const typed = Object.fromEntries(Object.entries(texts).filter(([field]) => !secret.test(field)))
    const parsed = schema.safeParse(texts)
    if (!parsed.success) {
      const fields = fieldMessages(parsed.error)
      return { code: 'bad-input', message: 'Look at the marked fields.', fields, typed }
    }
    let next: string
    try {
      next = await run(parsed.data)
    } catch (cause) {
      unstable_rethrow(cause)
      const refused = cause instanceof Refused ? cause : refusalOfTrouble(cause)
      if (refused !== cause) log.error('action failed', cause, { action: name })
      if (refused) {
        const { code, message, field } = refused
        return { code, message, fields: field ? { [field]: message } : {}, typed }
      }
      throw cause
    }
    revalidatePath('/', 'layout')
    redirect(next)
  }
}
