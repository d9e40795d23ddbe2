import 'server-only'
import { linkDays, type RoleName, wouldLeaveNoOwner } from '@/lib/records/person/rules'
import type {
  Invite,
  OwnPassword,
  OwnPin,
  PersonChange,
  PersonPress,
  Welcome,
} from '@/lib/records/person/schema'
import { requireOwnPassword } from '@/lib/records/session/write'
import { db, type Tx } from '@/lib/server/db'
import { env } from '@/lib/server/env'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { hashPassword } from '@/lib/server/password'
import { type Actor, currentSessionHash, hashToken, newToken, openSession } from '@/lib/server/session'

/** The one time the link can be read: only its hash is kept. */
export type NewLink = { id: number; linkPath: string }

/** Makes an account without a password, and the link its person sets one with. */
export async function invitePerson(input: Invite, actor: Actor): Promise<NewLink> {
  return db.$transaction(async (tx) => {
    await refuseTakenLogin(tx, input.login)
    const { id } = await tx.user.create({ data: input, select: { id: true } })
    await recordChange(tx, { by: actor, action: 'invited', entity: 'User', entityId: id, after: input })
    return { id, linkPath: await makeLink(tx, id) }
  })
}

export async function changePerson(input: PersonChange, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const { id, version, ...after } = input
    const before = await personForChange(tx, id, { role: after.role })
    if (after.login !== before.login) await refuseTakenLogin(tx, after.login)
    const { count } = await tx.user.updateMany({
      where: { id, version },
      data: { ...after, version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('person')
    await recordChange(tx, {
      by: actor,
      action: 'changed',
      entity: 'User',
      entityId: id,
      before: shown(before),
      after,
    })
    return { version: version + 1 }
  })
}

/** Ends an account: nothing it did is lost, and every session of it ends now. */
export async function deactivatePerson({ id }: PersonPress, actor: Actor): Promise<void> {
  await db.$transaction(async (tx) => {
    await personForChange(tx, id, { active: false })
    const { count } = await tx.user.updateMany({ where: { id, active: true }, data: { active: false } })
    if (count !== 1) throw new Refused('already-done', 'This account has ended already.')
    await tx.session.deleteMany({ where: { userId: id } })
    await tx.oneTimeLink.deleteMany({ where: { userId: id, usedAt: null } })
    await recordChange(tx, { by: actor, action: 'deactivated', entity: 'User', entityId: id })
  })
}

export async function reactivatePerson({ id }: PersonPress, actor: Actor): Promise<void> {
  await db.$transaction(async (tx) => {
    const { count } = await tx.user.updateMany({ where: { id, active: false }, data: { active: true } })
    if (count !== 1) throw new Refused('already-done', 'This account is in use already.')
    await recordChange(tx, { by: actor, action: 'reactivated', entity: 'User', entityId: id })
  })
}

/** A new link to set a password with; an earlier one that was not used is worth nothing from now on. */
export async function linkPerson({ id }: PersonPress, actor: Actor): Promise<NewLink> {
  return db.$transaction(async (tx) => {
    if ((await tx.user.count({ where: { id, active: true } })) !== 1) {
      throw new Refused('wrong-state', 'This account has ended. Restore it first.')
    }
    await recordChange(tx, { by: actor, action: 'made a password link for', entity: 'User', entityId: id })
    return { id, linkPath: await makeLink(tx, id) }
  })
}

/** Sets the password a link was given for, uses the link up, ends every older session and signs in. */
export async function acceptLink(input: Welcome): Promise<Actor> {
  const tokenHash = hashToken(input.token)
  const passwordHash = await hashPassword(input.password)
  return db.$transaction(async (tx) => {
    const now = new Date()
    const { count } = await tx.oneTimeLink.updateMany({
      where: { tokenHash, usedAt: null, expiresAt: { gt: now }, user: { active: true } },
      data: { usedAt: now },
    })
    if (count !== 1) {
      throw new Refused(
        'already-done',
        'This link was used already or has run out. Ask the owner for a new one.',
      )
    }
    const { userId } = await tx.oneTimeLink.findUniqueOrThrow({
      where: { tokenHash },
      select: { userId: true },
    })
    const { login } = await tx.user.update({
      where: { id: userId },
      data: { passwordHash },
      select: { login: true },
    })
    await tx.session.deleteMany({ where: { userId } })
    await tx.signInAttempt.deleteMany({ where: { login: { in: [login, `pin:${userId}`] } } })
    const actor = await openSession(tx, { userId })
    await recordChange(tx, { by: actor, action: 'set a password by link', entity: 'User', entityId: userId })
    return actor
  })
}

/** Changes one's own password; whoever else is signed in with the old one is signed out. */
export async function changeOwnPassword(input: OwnPassword, actor: Actor): Promise<void> {
  await requireOwnPassword(actor, input.current)
  const passwordHash = await hashPassword(input.next)
  const here = await currentSessionHash()
  await db.$transaction(async (tx) => {
    await tx.user.update({ where: { id: actor.userId }, data: { passwordHash } })
    await tx.session.deleteMany({
      where: { userId: actor.userId, ...(here === null ? {} : { tokenHash: { not: here } }) },
    })
    await recordChange(tx, {
      by: actor,
      action: 'changed the password',
      entity: 'User',
      entityId: actor.userId,
    })
  })
}

export async function setOwnPin(input: OwnPin, actor: Actor): Promise<void> {
  await requireOwnPassword(actor, input.current)
  const pinHash = await hashPassword(input.pin)
  await db.$transaction(async (tx) => {
    await tx.user.update({ where: { id: actor.userId }, data: { pinHash } })
    await tx.signInAttempt.deleteMany({ where: { login: `pin:${actor.userId}` } })
    await recordChange(tx, { by: actor, action: 'set a PIN', entity: 'User', entityId: actor.userId })
  })
}

export async function removeOwnPin(actor: Actor): Promise<void> {
  await db.$transaction(async (tx) => {
    await tx.user.update({ where: { id: actor.userId }, data: { pinHash: null } })
    await recordChange(tx, { by: actor, action: 'removed the PIN', entity: 'User', entityId: actor.userId })
  })
}

async function makeLink(tx: Tx, userId: number): Promise<string> {
  const token = newToken()
  await tx.oneTimeLink.deleteMany({ where: { userId, usedAt: null } })
  await tx.oneTimeLink.create({
    data: {
      tokenHash: hashToken(token),
      userId,
      expiresAt: new Date(Date.now() + linkDays * 24 * 3_600_000),
    },
  })
  return `${(env().BENDWRIGHT_URL ?? '').replace(/\/$/, '')}/welcome/${token}`
}

async function refuseTakenLogin(tx: Tx, login: string): Promise<void> {
  if (await tx.user.findUnique({ where: { login }, select: { id: true } })) {
    throw new Refused('bad-input', 'Somebody has this sign-in name already', 'login')
  }
}

/** Reads a person about to be changed; holds all owners' rows, so that two can't end each other's accounts at once. */
async function personForChange(tx: Tx, id: number, change: { role?: RoleName; active?: boolean }) {
  await tx.$queryRaw`select id from "User" where role = 'owner' order by id for update`
  const before = await tx.user.findUnique({
    where: { id },
    select: { name: true, login: true, role: true, active: true },
  })
  if (!before) throw new Refused('not-found', 'There is no such person.')
  const others = await tx.user.count({ where: { role: 'owner', active: true, id: { not: id } } })
  if (wouldLeaveNoOwner(before, { ...before, ...change }, others)) {
    throw new Refused('wrong-state', 'This is the shop’s last owner. Make somebody else an owner first.')
  }
  return before
}

function shown({ name, login, role }: { name: string; login: string; role: RoleName }) {
  return { name, login, role }
}
