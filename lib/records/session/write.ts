import 'server-only'
import {
  failureWindowMinutes,
  freeFailures,
  waitAfterFailuresS,
  waitInWords,
  wrongPinsAllowed,
} from '@/lib/records/session/rules'
import type { AdmitDevice, PinSignIn, SignIn } from '@/lib/records/session/schema'
import { db, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { passwordFits } from '@/lib/server/password'
import {
  type Actor,
  closeSession,
  currentDevice,
  currentSessionHash,
  markDevice,
  openSession,
  requestAddress,
} from '@/lib/server/session'

type Answer = { actor: Actor } | { refusal: Refused }

/** A PIN's failures stand beside a password's, and never hold a password up. */
const pinLogin = (userId: number) => `pin:${userId}`

/** Signs in by name and password. A wrong password and an unknown name get the same answer after the same work. */
export async function signIn(input: SignIn): Promise<Actor> {
  const address = await requestAddress()
  const answer = await db.$transaction(async (tx): Promise<Answer> => {
    const tried = await tryPassword(tx, { ...input, address })
    if ('refusal' in tried) return tried
    const actor = await openSession(tx, { userId: tried.userId })
    await recordChange(tx, { by: actor, action: 'signed in', entity: 'User', entityId: tried.userId })
    return { actor }
  })
  return settled(answer)
}

/** Before a password or PIN is changed: whoever sits at an open session has to know the password, and can't guess at it. */
export async function requireOwnPassword(actor: Actor, password: string): Promise<void> {
  const address = await requestAddress()
  const tried = await db.$transaction(async (tx) => {
    const { login } = await tx.user.findUniqueOrThrow({
      where: { id: actor.userId },
      select: { login: true },
    })
    return tryPassword(tx, { login, password, address })
  })
  if (!('refusal' in tried)) return
  if (tried.refusal.code === 'too-many-tries') throw tried.refusal
  throw new Refused('bad-input', 'This is not your password', 'current')
}

async function tryPassword(
  tx: Tx,
  typed: { login: string; password: string; address: string },
): Promise<{ userId: number } | { refusal: Refused }> {
  const { login, password, address } = typed
  await oneTryAtATime(tx, login)
  const waitS = await waitLeftS(tx, login, address)
  if (waitS > 0) return tooManyTries(waitS)
  const user = await tx.user.findUnique({
    where: { login },
    select: { id: true, active: true, passwordHash: true },
  })
  const fits = await passwordFits(user?.passwordHash ?? null, password)
  if (!user?.active || !fits) {
    await noteFailure(tx, login, address)
    return { refusal: new Refused('not-signed-in', 'No account fits this name and password.') }
  }
  await tx.signInAttempt.deleteMany({ where: { login: { in: [login, pinLogin(user.id)] } } })
  return { userId: user.id }
}

/** Signs in by PIN, only on a device the owner has admitted, and only to the bench's screens. */
export async function signInWithPin(input: PinSignIn): Promise<Actor> {
  const device = await currentDevice()
  if (!device)
    throw new Refused('not-allowed', 'This device is not admitted for PINs. Sign in with your password.')
  const address = await requestAddress()
  const login = pinLogin(input.userId)
  const answer = await db.$transaction(async (tx): Promise<Answer> => {
    await oneTryAtATime(tx, login)
    if ((await tx.signInAttempt.count({ where: { login } })) >= wrongPinsAllowed) {
      const message = 'Too many wrong PINs. Sign in with your password once; then the PIN works again.'
      return { refusal: new Refused('too-many-tries', message) }
    }
    const waitS = await waitLeftS(tx, login, address)
    if (waitS > 0) return tooManyTries(waitS)
    const user = await tx.user.findUnique({
      where: { id: input.userId },
      select: { active: true, pinHash: true },
    })
    const fits = await passwordFits(user?.pinHash ?? null, input.pin)
    if (!user?.active || !fits) {
      await noteFailure(tx, login, address)
      return { refusal: new Refused('not-signed-in', 'This is not the PIN.', 'pin') }
    }
    await tx.signInAttempt.deleteMany({ where: { login } })
    const actor = await openSession(tx, { userId: input.userId, deviceId: device.id })
    const detailText = `with a PIN on ${device.name}`
    await recordChange(tx, {
      by: actor,
      action: 'signed in',
      entity: 'User',
      entityId: input.userId,
      detailText,
    })
    return { actor }
  })
  return settled(answer)
}

export async function signOut(): Promise<void> {
  await closeSession()
}

/** Ends one session, at the owner's word. */
export async function endSession(input: { tokenHash: string }, actor: Actor): Promise<void> {
  await db.$transaction(async (tx) => {
    const session = await tx.session.findUnique({
      where: { tokenHash: input.tokenHash },
      select: { userId: true, user: { select: { name: true } } },
    })
    if (!session) throw new Refused('already-done', 'This session has ended already.')
    await tx.session.deleteMany({ where: { tokenHash: input.tokenHash } })
    await recordChange(tx, {
      by: actor,
      action: 'ended a session',
      entity: 'User',
      entityId: session.userId,
      detailText: `of ${session.user.name}`,
    })
  })
}

/** Signs oneself out of every browser but this one. */
export async function endOwnSessions(actor: Actor): Promise<{ count: number }> {
  const here = await currentSessionHash()
  return db.$transaction(async (tx) => {
    const { count } = await tx.session.deleteMany({
      where: { userId: actor.userId, ...(here === null ? {} : { tokenHash: { not: here } }) },
    })
    if (count === 0) throw new Refused('already-done', 'You are signed in nowhere else.')
    await recordChange(tx, {
      by: actor,
      action: 'signed out everywhere else',
      entity: 'User',
      entityId: actor.userId,
      detailText: `sessions ended: ${count}`,
    })
    return { count }
  })
}

/** Makes this very browser one of the shop's bench devices, on which people may sign in by PIN. */
export async function admitDevice(input: AdmitDevice, actor: Actor): Promise<void> {
  if (await currentDevice()) throw new Refused('already-done', 'This device is admitted already.')
  const tokenHash = await markDevice()
  await db.$transaction(async (tx) => {
    const { id } = await tx.device.create({
      data: { name: input.name, tokenHash, admittedById: actor.userId },
      select: { id: true },
    })
    await recordChange(tx, {
      by: actor,
      action: 'admitted',
      entity: 'Device',
      entityId: id,
      detailText: input.name,
    })
  })
}

/** No PIN opens this device any more, and whoever is signed in on it by one is signed out. */
export async function revokeDevice(input: { id: number }, actor: Actor): Promise<void> {
  await db.$transaction(async (tx) => {
    const { count } = await tx.device.updateMany({
      where: { id: input.id, revokedAt: null },
      data: { revokedAt: new Date() },
    })
    if (count !== 1) throw new Refused('already-done', 'This device is not admitted any more.')
    await tx.session.deleteMany({ where: { deviceId: input.id } })
    await recordChange(tx, { by: actor, action: 'revoked', entity: 'Device', entityId: input.id })
  })
}

/** Two guesses at one account never run side by side, or both would pass the count before either is noted. */
async function oneTryAtATime(tx: Tx, login: string): Promise<void> {
  await tx.$executeRaw`select pg_advisory_xact_lock(hashtext(${`sign-in ${login}`}))`
}

/** How long this account or this address still has to wait. */
async function waitLeftS(tx: Tx, login: string, address: string): Promise<number> {
  const since = new Date(Date.now() - failureWindowMinutes * 60_000)
  const count = { _count: true, _max: { at: true } } as const
  const byAccount = await tx.signInAttempt.aggregate({ where: { login, at: { gt: since } }, ...count })
  const byAddress = await tx.signInAttempt.aggregate({ where: { address, at: { gt: since } }, ...count })
  const left = (failures: typeof byAccount, free: number) => {
    const last = failures._max.at
    if (!last) return 0
    return waitAfterFailuresS(failures._count, free) - (Date.now() - last.getTime()) / 1000
  }
  return Math.max(0, left(byAccount, freeFailures.account), left(byAddress, freeFailures.address))
}

async function noteFailure(tx: Tx, login: string, address: string): Promise<void> {
  await tx.signInAttempt.create({ data: { login, address, at: new Date() } })
  const dayAgo = new Date(Date.now() - 24 * 3_600_000)
  await tx.signInAttempt.deleteMany({ where: { at: { lt: dayAgo }, NOT: { login: { startsWith: 'pin:' } } } })
}

function tooManyTries(waitS: number): { refusal: Refused } {
  return {
    refusal: new Refused('too-many-tries', `Too many tries. Wait ${waitInWords(waitS)}, then try again.`),
  }
}

/** A refusal is thrown only after its failure has been kept. */
function settled(answer: Answer): Actor {
  if ('refusal' in answer) throw answer.refusal
  return answer.actor
}
