import 'server-only'
import { createHash, randomBytes } from 'node:crypto'
import { cookies, headers } from 'next/headers'
import { forbidden, redirect } from 'next/navigation'
import { cache } from 'react'
import { db, type Tx } from '@/lib/server/db'
import { env } from '@/lib/server/env'
import { Refused } from '@/lib/server/errors'
import type { Role } from '@/lib/server/generated/prisma/enums'
import { type Permission, roleMay } from '@/lib/server/permissions'

declare const proof: unique symbol

/** Somebody signed in. Only this file can make one, so a function that takes an Actor was reached through a session. */
export type Actor = {
  readonly userId: number
  readonly name: string
  readonly role: Role
  readonly [proof]: true
}

export const sessionCookie = 'bendwright_session'
export const deviceCookie = 'bendwright_device'
const sessionHours = { full: 14 * 24, pin: 12 }

export function hashToken(token: string): string {
  return createHash('sha256').update(token).digest('hex')
}

/** 256 random bits, safe in an address. */
export function newToken(): string {
  return randomBytes(32).toString('base64url')
}

type SessionFound = { id: number; name: string; role: Role; fromDevice: boolean; seenAt: Date }

/** One statement, because every request begins with it: the same through relations is three. */
async function actorOfToken(token: string): Promise<Actor | null> {
  const tokenHash = hashToken(token)
  const [found] = await db.$queryRaw<SessionFound[]>`
    select who.id, who.name, who.role::text as role, session."deviceId" is not null as "fromDevice",
      session."lastSeenAt" as "seenAt"
    from "Session" session join "User" who on who.id = session."userId"
      left join "Device" device on device.id = session."deviceId"
    where session."tokenHash" = ${tokenHash} and session."expiresAt" > now()
      and who.active and device."revokedAt" is null`
  if (!found) return null
  const quietMs = Date.now() - found.seenAt.getTime()
  if (quietMs > 10 * 60_000)
    await db.session.updateMany({ where: { tokenHash }, data: { lastSeenAt: new Date() } })
  const { id, name, role, fromDevice } = found
  // Four digits on a shared tablet open the bench and no more, whoever types them.
  return { userId: id, name, role: fromDevice ? 'bench' : role } as Actor
}

/** Who asks, looked up once a request; null when nobody is signed in. */
export const currentActor = cache(async (): Promise<Actor | null> => {
  const token = (await cookies()).get(sessionCookie)?.value
  return token ? actorOfToken(token) : null
})

export function may(actor: Actor, permission: Permission): boolean {
  return roleMay(actor.role, permission)
}

/** For pages: sends the signed-out to sign in (and back), answers 403 to a role that may not. */
export async function requireActor(permission: Permission): Promise<Actor> {
  const actor = await currentActor()
  if (!actor) {
    const path = (await headers()).get('x-bendwright-path') ?? '/'
    redirect(path === '/' ? '/sign-in' : `/sign-in?then=${encodeURIComponent(path)}`)
  }
  if (!may(actor, permission)) forbidden()
  return actor
}

/** For actions and routes: refuses instead of redirecting. */
export async function allowedActor(permission: Permission): Promise<Actor> {
  const actor = await currentActor()
  if (!actor)
    throw new Refused(
      'not-signed-in',
      'You are signed out. Sign in again in another tab, then save: what you typed is still here.',
    )
  if (!may(actor, permission))
    throw new Refused('not-allowed', `Your role (${actor.role}) may not do this. Ask the owner.`)
  return actor
}

async function cookieOptions(maxAgeS: number) {
  const secure =
    (await headers()).get('x-forwarded-proto') === 'https' ||
    env().BENDWRIGHT_URL?.startsWith('https:') === true
  return { httpOnly: true, sameSite: 'lax', path: '/', secure, maxAge: maxAgeS } as const
}

/** Signs this browser in, in place of whoever was signed in on it. A device's session is a PIN's: shorter, and the bench's only. */
export async function openSession(tx: Tx, who: { userId: number; deviceId?: number }): Promise<Actor> {
  const user = await tx.user.findUniqueOrThrow({
    where: { id: who.userId },
    select: { id: true, name: true, role: true },
  })
  const token = newToken()
  const hours = who.deviceId === undefined ? sessionHours.full : sessionHours.pin
  const list = await headers()
  const jar = await cookies()
  const earlier = jar.get(sessionCookie)?.value
  if (earlier) await tx.session.deleteMany({ where: { tokenHash: hashToken(earlier) } })
  await tx.session.create({
    data: {
      tokenHash: hashToken(token),
      userId: who.userId,
      deviceId: who.deviceId ?? null,
      expiresAt: new Date(Date.now() + hours * 3_600_000),
      addressText: clientAddress(list),
      agentText: (list.get('user-agent') ?? '').slice(0, 200),
    },
  })
  jar.set(sessionCookie, token, await cookieOptions(hours * 3600))
  return { userId: user.id, name: user.name, role: who.deviceId === undefined ? user.role : 'bench' } as Actor
}

/** The row of the session this request came with; null when signed out. */
export async function currentSessionHash(): Promise<string | null> {
  const token = (await cookies()).get(sessionCookie)?.value
  return token ? hashToken(token) : null
}

/** The demo shop is entered in the names of its invented people, who never sign in. */
export async function actorForDemo(tx: Tx, userId: number): Promise<Actor> {
  const { id, name, role } = await tx.user.findUniqueOrThrow({
    where: { id: userId },
    select: { id: true, name: true, role: true },
  })
  return { userId: id, name, role } as Actor
}

/** Where the request came from, to count failed sign-ins by. */
export async function requestAddress(): Promise<string> {
  return clientAddress(await headers())
}

export async function closeSession(): Promise<void> {
  const jar = await cookies()
  const token = jar.get(sessionCookie)?.value
  if (token) await db.session.deleteMany({ where: { tokenHash: hashToken(token) } })
  jar.delete(sessionCookie)
}

/** Marks this browser as an admitted bench device; returns the token's hash to store. */
export async function markDevice(): Promise<string> {
  const token = newToken()
  ;(await cookies()).set(deviceCookie, token, await cookieOptions(400 * 24 * 3600))
  return hashToken(token)
}

/** The admitted, not revoked device that this browser is, or null. */
export async function currentDevice(): Promise<{ id: number; name: string } | null> {
  const token = (await cookies()).get(deviceCookie)?.value
  if (!token) return null
  return db.device.findFirst({
    where: { tokenHash: hashToken(token), revokedAt: null },
    select: { id: true, name: true },
  })
}

/** Who connects, as lib/launch/forwarded.mjs has settled it before the app saw the request; sign-in limits count by it. */
function clientAddress(list: Headers | Awaited<ReturnType<typeof headers>>): string {
  return (list.get('x-forwarded-for')?.split(',').at(-1)?.trim() ?? 'direct').slice(0, 64)
}
