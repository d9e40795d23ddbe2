import { db } from '@/lib/server/db'
import type { Role } from '@/lib/server/generated/prisma/enums'
import type { Actor } from '@/lib/server/session'

let userCount = 0

/** Somebody with this role, with a row of their own, as a session would have given them to a write. */
export async function actorWithRole(role: Role, name = `${role} of the tests`): Promise<Actor> {
  userCount += 1
  const user = await db.user.create({ data: { login: `${role}-${userCount}`, name, role } })
  return { userId: user.id, name: user.name, role: user.role } as Actor
}
