import 'server-only'
import { db } from '@/lib/server/db'
import { mailIsSetUp } from '@/lib/server/mail'
import { hashToken } from '@/lib/server/session'

const personColumns = {
  id: true,
  login: true,
  name: true,
  role: true,
  email: true,
  active: true,
  version: true,
  createdAt: true,
  passwordHash: true,
  pinHash: true,
  oneTimeLinks: {
    where: { usedAt: null },
    select: { expiresAt: true },
    orderBy: { createdAt: 'desc' },
    take: 1,
  },
  sessions: { select: { lastSeenAt: true }, orderBy: { lastSeenAt: 'desc' }, take: 1 },
} as const

/** Hashes stay here; a screen learns only that there is one. */
function person<Row extends { passwordHash: string | null; pinHash: string | null }>(row: Row) {
  const { passwordHash, pinHash, ...shown } = row
  return { ...shown, hasPassword: passwordHash !== null, hasPin: pinHash !== null }
}

export async function readPeople() {
  const rows = await db.user.findMany({
    select: personColumns,
    orderBy: [{ active: 'desc' }, { name: 'asc' }],
    take: 200,
  })
  return rows.map(person)
}

export async function readPerson(id: number) {
  const row = await db.user.findUnique({ where: { id }, select: personColumns })
  return row ? person(row) : null
}

/** Whether links can be mailed: only then is there a way to a new password without the owner. */
export function linksAreMailed(): boolean {
  return mailIsSetUp()
}

/** Whose link this is, and whether it can still be used; null for a link that was never made. */
export async function readWelcome(token: string) {
  const link = await db.oneTimeLink.findUnique({
    where: { tokenHash: hashToken(token) },
    select: { expiresAt: true, usedAt: true, user: { select: { name: true, login: true, active: true } } },
  })
  if (!link) return null
  const usable = link.usedAt === null && link.expiresAt > new Date() && link.user.active
  return { usable, used: link.usedAt !== null, name: link.user.name, login: link.user.login }
}
