import 'server-only'
import { headers } from 'next/headers'
import { Refused, refusalStatus } from '@/lib/server/errors'
import { log } from '@/lib/server/log'
import { isFromOwnPage } from '@/lib/server/origin'
import type { Permission } from '@/lib/server/permissions'
import { type Actor, allowedActor } from '@/lib/server/session'
import { refusalOfTrouble } from '@/lib/server/trouble'

function refusal(code: keyof typeof refusalStatus, message: string): Response {
  return Response.json({ message, code }, { status: refusalStatus[code] })
}

async function requireSameOrigin(): Promise<void> {
  if (!isFromOwnPage(await headers())) {
    throw new Refused('not-allowed', 'This request did not come from one of the shop’s own pages.')
  }
}

/** Wraps a route handler: who asks, origin of a change, refusals as their status, bugs logged once as 500 by the framework. */
export function shopRoute<Context>(
  permission: Permission,
  handle: (request: Request, context: Context, actor: Actor) => Promise<Response>,
): (request: Request, context: Context) => Promise<Response> {
  return async (request, context) => {
    try {
      if (request.method !== 'GET' && request.method !== 'HEAD') await requireSameOrigin()
      const actor = await allowedActor(permission)
      return await handle(request, context, actor)
    } catch (cause) {
      if (cause instanceof Refused) return refusal(cause.code, cause.message)
      log.error('route failed', cause, { path: new URL(request.url).pathname })
      const trouble = refusalOfTrouble(cause)
      if (trouble) return refusal(trouble.code, trouble.message)
      throw cause
    }
  }
}
