import 'server-only'
import { revalidatePath } from 'next/cache'
import { unstable_rethrow } from 'next/navigation'
import type { z } from 'zod'
import { db } from '@/lib/server/db'
import { type RefusalCode, Refused } from '@/lib/server/errors'
import { log } from '@/lib/server/log'
import { type Meanwhile, readMeanwhile } from '@/lib/server/meanwhile'
import type { Permission } from '@/lib/server/permissions'
import { type Actor, allowedActor } from '@/lib/server/session'
import { atMostOnce, submitKeyOf } from '@/lib/server/submit-key'
import { refusalOfTrouble, requireDiskSpace } from '@/lib/server/trouble'

/** What every action answers: the form shows `fields` at their fields and `message` beside its button. */
export type ActionResult<Value = unknown> =
  | { ok: true; value: Value }
  | {
      ok: false
      code: RefusalCode
      message: string
      fields: Record<string, string>
      meanwhile?: Meanwhile | undefined
    }

/** Field messages by the path the form uses: 'bends.0.angleDeg'. The first message of a field counts. */
export function fieldMessages(error: z.ZodError): Record<string, string> {
  const fields: Record<string, string> = {}
  for (const issue of error.issues) fields[issue.path.join('.')] ??= issue.message
  return fields
}

/** The shop's units of what is typed without one; a schema that needs them is given as a function of them. */
async function shopUnits(): Promise<{ lengthUnit: 'in' | 'mm'; currency: string }> {
  return db.shop.findUniqueOrThrow({ where: { id: 1 }, select: { lengthUnit: true, currency: true } })
}

/** Runs one intention for whoever is signed in: who, parse, run, refresh the screens, translate a refusal. */
export function formAction<Schema extends z.ZodType, Value>(
  permission: Permission,
  schema: Schema | ((units: { lengthUnit: 'in' | 'mm'; currency: string }) => Schema),
  run: (input: z.output<Schema>, actor: Actor) => Promise<Value>,
): (typed: unknown) => Promise<ActionResult<Value>> {
  return async (sent) => {
    let input: unknown
    try {
      const actor = await allowedActor(permission)
      const once = submitKeyOf(sent, actor.userId)
      const typed = once ? once.content : sent
      const parsed = (typeof schema === 'function' ? schema(await shopUnits()) : schema).safeParse(typed)
      if (!parsed.success) {
        return {
          ok: false,
          code: 'bad-input',
          message: 'Look at the marked fields.',
          fields: fieldMessages(parsed.error),
        }
      }
      input = parsed.data
      await requireDiskSpace()
      const write = () => run(parsed.data, actor)
      const value = await (once ? atMostOnce(once.key, actor.userId, write) : write())
      revalidatePath('/', 'layout')
      return { ok: true, value }
    } catch (cause) {
      unstable_rethrow(cause)
      if (cause instanceof Refused) {
        return {
          ok: false,
          code: cause.code,
          message: cause.message,
          fields: cause.field ? { [cause.field]: cause.message } : {},
          ...(cause.stale ? { meanwhile: await readMeanwhile(cause.stale, input) } : {}),
        }
      }
      log.error('action failed', cause, { permission })
      const trouble = refusalOfTrouble(cause)
      if (trouble) return { ok: false, code: trouble.code, message: trouble.message, fields: {} }
      throw cause
    }
  }
}
