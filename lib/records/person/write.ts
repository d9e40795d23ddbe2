import 'server-only'
import {
  linkDays,
  linkMail,
  mailedLinkMinutes,
  mailedLinksAnHour,
  type RoleName,
  wouldLeaveNoOwner,
} from '@/lib/records/person/rules'
import type {
  Forgotten,
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
import { type Mailed, mailIsSetUp, sendMail } from '@/lib/server/mail'
import { hashPassword } from '@/lib/server/password'
import {
  type Actor,
  currentSessionHash,
  hashToken,
  newToken,
  openSession,
  requestAddress,
} from '@/lib/server/session'

/** The one time the link can be read: only its hash is kept. `mailed` says whether it has gone to the person as well. */
export type NewLink = { id: number; linkPath: string; mailed: Mailed | 'no-address' }

/** Makes an account without a password, and the link its person sets one with. */
export async function invitePerson(input: Invite, actor: Actor): Promise<NewLink> {
  const made = await db.$transaction(async (tx) => {
    await refuseTaken(tx, input)
    const { id } = await tx.user.create({ data: input, select: { id: true } })
    await recordChange(tx, { by: actor, action: 'invited', entity: 'User', entityId: id, after: input })
    return { id, linkPath: await makeLink(tx, id) }
  })
  return { ...made, mailed: await mailLink(made.id, made.linkPath, 'invited') }
}

export async function changePerson(input: PersonChange, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    const { id, version, ...after } = input
    const before = await personForChange(tx, id, { role: after.role })
    await refuseTaken(tx, after, id)
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
  const made = await db.$transaction(async (tx) => {
    const person = await tx.user.findUnique({
      where: { id, active: true },
      select: { passwordHash: true },
    })
    if (!person) throw new Refused('wrong-state', 'This account has ended. Restore it first.')
    await recordChange(tx, { by: actor, action: 'made a password link for', entity: 'User', entityId: id })
    await tx.oneTimeLink.deleteMany({ where: { userId: id, usedAt: null } })
    return { invited: person.passwordHash === null, linkPath: await makeLink(tx, id) }
  })
  const why = made.invited ? 'invited' : 'reset-by-owner'
  return { id, linkPath: made.linkPath, mailed: await mailLink(id, made.linkPath, why) }
}

/**
 * Whoever has forgotten a password asks for a link by mail. Whether there is such an account is told to nobody: what is
 * answered, and how long it takes, is the same. The answer waits for no more than this count.
 */
export async function noteForgotten({ who }: Forgotten): Promise<void> {
  if (!mailIsSetUp()) throw new Refused('wrong-state', 'This shop sends no mail. Ask the owner for a link.')
  const login = `reset:${who}`
  const address = await requestAddress()
  await db.$transaction(async (tx) => {
    await tx.$executeRaw`select pg_advisory_xact_lock(hashtext('ask for a link'))`
    const at = { gt: new Date(Date.now() - 3_600_000) }
    const byAccount = await tx.signInAttempt.count({ where: { login, at } })
    const byAddress = await tx.signInAttempt.count({
      where: { login: { startsWith: 'reset:' }, address, at },
    })
    if (byAccount >= mailedLinksAnHour.account || byAddress >= mailedLinksAnHour.address)
      throw new Refused('too-many-tries', 'Too many links were asked for. Wait an hour, or ask the owner.')
    await tx.signInAttempt.create({ data: { login, address, at: new Date() } })
  })
}

/** Mails the link if there is somebody to mail it to. Links made before stay good: others must not be able to end them. */
export async function mailForgotten({ who }: Forgotten): Promise<void> {
  const made = await db.$transaction(async (tx) => {
    const person = await tx.user.findFirst({
      where: { active: true, email: { not: null }, OR: [{ login: who }, { email: who }] },
      select: { id: true },
      orderBy: { id: 'asc' },
    })
    if (!person) return null
    await recordChange(tx, {
      by: 'whoever asked at the sign-in screen',
      action: 'asked for a password link for',
      entity: 'User',
      entityId: person.id,
    })
    return { id: person.id, linkPath: await makeLink(tx, person.id, mailedLinkMinutes) }
  })
  if (made) await mailLink(made.id, made.linkPath, 'forgotten')
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
    await tx.oneTimeLink.deleteMany({ where: { userId, usedAt: null } })
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

async function makeLink(tx: Tx, userId: number, goodForMinutes = linkDays * 24 * 60): Promise<string> {
  const token = newToken()
  await tx.oneTimeLink.create({
    data: {
      tokenHash: hashToken(token),
      userId,
      expiresAt: new Date(Date.now() + goodForMinutes * 60_000),
    },
  })
  return `${(env().BENDWRIGHT_URL ?? '').replace(/\/$/, '')}/welcome/${token}`
}

/** After the link is kept: a mail server that does not answer loses nothing, for the owner sees the link as well. */
async function mailLink(
  userId: number,
  address: string,
  why: Parameters<typeof linkMail>[0]['why'],
): Promise<NewLink['mailed']> {
  if (!mailIsSetUp()) return 'not-set-up'
  const [shop, person] = await Promise.all([
    db.shop.findUnique({ where: { id: 1 }, select: { name: true } }),
    db.user.findUniqueOrThrow({ where: { id: userId }, select: { name: true, login: true, email: true } }),
  ])
  if (person.email === null) return 'no-address'
  const { name, login } = person
  return sendMail({
    to: { name, address: person.email },
    ...linkMail({ shopName: shop?.name ?? 'the shop', personName: name, login, address, why }),
  })
}

async function refuseTaken(
  tx: Tx,
  typed: { login: string; email: string | null },
  ownId?: number,
): Promise<void> {
  const others = ownId === undefined ? {} : { id: { not: ownId } }
  if (await tx.user.findFirst({ where: { login: typed.login, ...others }, select: { id: true } })) {
    throw new Refused('bad-input', 'Somebody has this sign-in name already', 'login')
  }
  if (typed.email === null) return
  if (await tx.user.findFirst({ where: { email: typed.email, ...others }, select: { id: true } })) {
    throw new Refused('bad-input', 'Somebody has this e-mail address already', 'email')
  }
}

/** Reads a person about to be changed; holds all owners' rows, so that two can't end each other's accounts at once. */
async function personForChange(tx: Tx, id: number, change: { role?: RoleName; active?: boolean }) {
  await tx.$queryRaw`select id from "User" where role = 'owner' order by id for update`
  const before = await tx.user.findUnique({
    where: { id },
    select: { name: true, login: true, role: true, email: true, active: true },
  })
  if (!before) throw new Refused('not-found', 'There is no such person.')
  const others = await tx.user.count({ where: { role: 'owner', active: true, id: { not: id } } })
  if (wouldLeaveNoOwner(before, { ...before, ...change }, others)) {
    throw new Refused('wrong-state', 'This is the shop’s last owner. Make somebody else an owner first.')
  }
  return before
}

function shown(person: { name: string; login: string; role: RoleName; email: string | null }) {
  const { name, login, role, email } = person
  return { name, login, role, email }
}
