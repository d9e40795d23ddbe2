import 'server-only'
import { db } from '@/lib/server/db'
import { currentDevice, currentSessionHash } from '@/lib/server/session'

/** Who may sign in by PIN here: nobody unless the owner has admitted this device. */
export async function readPinSignIn(): Promise<{
  deviceName: string
  people: { id: number; name: string }[]
} | null> {
  const device = await currentDevice()
  if (!device) return null
  const people = await db.user.findMany({
    where: { active: true, pinHash: { not: null } },
    select: { id: true, name: true },
    orderBy: { name: 'asc' },
  })
  return { deviceName: device.name, people }
}

const sessionColumns = {
  tokenHash: true,
  createdAt: true,
  lastSeenAt: true,
  expiresAt: true,
  addressText: true,
  agentText: true,
  device: { select: { name: true } },
  user: { select: { id: true, name: true } },
} as const

/** Who is signed in where, the last seen first; `here` is this very browser. */
export async function readSessions(of: { userId?: number } = {}) {
  const [rows, here] = await Promise.all([
    db.session.findMany({
      where: { expiresAt: { gt: new Date() }, ...(of.userId === undefined ? {} : { userId: of.userId }) },
      select: sessionColumns,
      orderBy: { lastSeenAt: 'desc' },
      take: 200,
    }),
    currentSessionHash(),
  ])
  return rows.map((row) => ({ ...row, here: row.tokenHash === here }))
}

export async function readDevices() {
  const [devices, here] = await Promise.all([
    db.device.findMany({
      select: {
        id: true,
        name: true,
        admittedAt: true,
        revokedAt: true,
        admittedBy: { select: { name: true } },
      },
      orderBy: [{ revokedAt: { sort: 'asc', nulls: 'first' } }, { admittedAt: 'desc' }],
      take: 100,
    }),
    currentDevice(),
  ])
  return { devices, hereId: here?.id ?? null }
}
