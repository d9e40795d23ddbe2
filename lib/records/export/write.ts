import 'server-only'
import { db } from '@/lib/server/db'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/** Who took a copy of everything, and when, belongs to the trail as much as a change does. */
export async function noteExport(actor: Actor): Promise<void> {
  await db.$transaction((tx) =>
    recordChange(tx, { by: actor, action: 'took a copy of all data', entity: 'Shop', entityId: 1 }),
  )
}
