import { beforeEach, describe, expect, it, vi } from 'vitest'
import { freeFailures, wrongPinsAllowed } from '@/lib/records/session/rules'
import {
  admitDevice,
  endOwnSessions,
  endSession,
  requireOwnPassword,
  revokeDevice,
  signIn,
  signInWithPin,
  signOut,
} from '@/lib/records/session/write'
import { db } from '@/lib/server/db'
import { hashPassword } from '@/lib/server/password'
import { allowedActor, hashToken, sessionCookie } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { askFrom, cookieValue, forgetBrowser } from '@/tests/support/browser-request'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'

vi.mock('next/headers', () => import('@/tests/support/browser-request'))

const password = 'three words of a harbour'

beforeEach(async () => {
  await freshDatabase()
  forgetBrowser()
})

async function person(role: 'owner' | 'office' | 'bench', login: string, pin?: string) {
  const passwordHash = await hashPassword(password)
  const pinHash = pin === undefined ? null : await hashPassword(pin)
  return db.user.create({ data: { login, name: login, role, passwordHash, pinHash } })
}

async function fail(login: string, count: number): Promise<void> {
  for (let index = 0; index < count; index += 1) {
    await expect(signIn({ login, password: 'not this one' })).rejects.toMatchObject({ code: 'not-signed-in' })
  }
}

describe('Signing in by password', () => {
  it('opens a session of which only the hash is kept', async () => {
    const { id } = await person('office', 'sela')
    expect(await signIn({ login: 'sela', password })).toMatchObject({ userId: id, role: 'office' })
    const token = cookieValue(sessionCookie) ?? ''
    const sessions = await db.session.findMany()
    expect(sessions.map((session) => session.tokenHash)).toEqual([hashToken(token)])
    expect(JSON.stringify(sessions)).not.toContain(token)
  })

  it('ends the session that the browser had before', async () => {
    await person('office', 'sela')
    await person('bench', 'idris')
    await signIn({ login: 'sela', password })
    await signIn({ login: 'idris', password })
    expect(await db.session.findMany({ select: { user: { select: { login: true } } } })).toEqual([
      { user: { login: 'idris' } },
    ])
  })

  it('answers an unknown name as it answers a wrong password, and counts both', async () => {
    await person('office', 'sela')
    const answer = { code: 'not-signed-in', message: 'No account fits this name and password.' }
    await expect(signIn({ login: 'sela', password: 'not this one' })).rejects.toMatchObject(answer)
    await expect(signIn({ login: 'nobody', password: 'not this one' })).rejects.toMatchObject(answer)
    expect(await db.signInAttempt.count()).toBe(2)
  })

  it('refuses an account that has ended, whatever the password', async () => {
    const { id } = await person('office', 'sela')
    await db.user.update({ where: { id }, data: { active: false } })
    await expect(signIn({ login: 'sela', password })).rejects.toMatchObject({ code: 'not-signed-in' })
    expect(await db.session.count()).toBe(0)
  })

  it('makes the right password wait too after five failures, and hears it once the wait is over', async () => {
    await person('office', 'sela')
    await fail('sela', freeFailures.account)
    await expect(signIn({ login: 'sela', password })).rejects.toMatchObject({ code: 'too-many-tries' })
    await db.signInAttempt.updateMany({ data: { at: new Date(Date.now() - 31_000) } })
    await expect(signIn({ login: 'sela', password })).resolves.toMatchObject({ name: 'sela' })
    expect(await db.signInAttempt.count()).toBe(0)
  })

  it('counts guesses that run side by side one after the other', async () => {
    await person('office', 'sela')
    const guesses = Array.from({ length: 12 }, () => signIn({ login: 'sela', password: 'not this one' }))
    const codes = (await Promise.allSettled(guesses)).map((guess) =>
      guess.status === 'rejected' ? (guess.reason as { code: string }).code : 'in',
    )
    expect(codes.filter((code) => code === 'not-signed-in')).toHaveLength(freeFailures.account)
    expect(codes.filter((code) => code === 'too-many-tries')).toHaveLength(12 - freeFailures.account)
  })

  it('slows an address that tries many names, and leaves other addresses alone', async () => {
    await person('office', 'sela')
    const at = new Date()
    await db.signInAttempt.createMany({
      data: Array.from({ length: freeFailures.address }, (_, index) => ({
        login: `guess-${index}`,
        address: '10.0.0.7',
        at,
      })),
    })
    await expect(signIn({ login: 'sela', password })).rejects.toMatchObject({ code: 'too-many-tries' })
    askFrom('10.0.0.8')
    await expect(signIn({ login: 'sela', password })).resolves.toMatchObject({ name: 'sela' })
  })

  it('leaves no session behind when it fails half-way', async () => {
    await person('office', 'sela')
    await refuseHistory()
    await expect(signIn({ login: 'sela', password })).rejects.toThrow('history is refused')
    expect(await db.session.count()).toBe(0)
  })
})

describe('Signing in by PIN', () => {
  async function admitted() {
    const owner = await actorWithRole('owner')
    await admitDevice({ name: 'Bench tablet' }, owner)
    return owner
  }

  it('is refused on a device that nobody admitted', async () => {
    const { id } = await person('bench', 'idris', '4827')
    await expect(signInWithPin({ userId: id, pin: '4827' })).rejects.toMatchObject({ code: 'not-allowed' })
  })

  it('opens the bench and no more, even for the owner', async () => {
    await admitted()
    const { id } = await person('owner', 'mara', '4827')
    expect(await signInWithPin({ userId: id, pin: '4827' })).toMatchObject({ userId: id, role: 'bench' })
    // Each request after it too: the session knows that four digits opened it.
    expect(await allowedActor('bench.write')).toMatchObject({ userId: id, role: 'bench' })
    await expect(allowedActor('person.write')).rejects.toMatchObject({ code: 'not-allowed' })
    await signIn({ login: 'mara', password })
    expect(await allowedActor('person.write')).toMatchObject({ userId: id, role: 'owner' })
  })

  it('opens nothing from a device that is revoked, even where a session of it is left', async () => {
    await admitted()
    const { id } = await person('bench', 'idris', '4827')
    await signInWithPin({ userId: id, pin: '4827' })
    expect(await allowedActor('bench.write')).toMatchObject({ userId: id })
    await db.device.updateMany({ data: { revokedAt: new Date() } })
    expect(await db.session.count()).toBe(1)
    await expect(allowedActor('bench.write')).rejects.toMatchObject({ code: 'not-signed-in' })
  })

  it('is locked after ten wrong PINs until the password was typed', async () => {
    await admitted()
    const { id } = await person('bench', 'idris', '4827')
    const long = new Date(Date.now() - 3_600_000)
    await db.signInAttempt.createMany({
      data: Array.from({ length: wrongPinsAllowed }, () => ({
        login: `pin:${id}`,
        address: '10.0.0.7',
        at: long,
      })),
    })
    await expect(signInWithPin({ userId: id, pin: '4827' })).rejects.toMatchObject({ code: 'too-many-tries' })
    await signIn({ login: 'idris', password })
    await expect(signInWithPin({ userId: id, pin: '4827' })).resolves.toMatchObject({ userId: id })
  })

  it('a wrong PIN never holds up the password', async () => {
    await admitted()
    const { id } = await person('bench', 'idris', '4827')
    for (let index = 0; index < freeFailures.account; index += 1) {
      await expect(signInWithPin({ userId: id, pin: '1111' })).rejects.toMatchObject({ field: 'pin' })
    }
    await expect(signIn({ login: 'idris', password })).resolves.toMatchObject({ userId: id })
  })

  it('ends with the device: revoking signs its people out', async () => {
    const owner = await admitted()
    const { id } = await person('bench', 'idris', '4827')
    await signInWithPin({ userId: id, pin: '4827' })
    const device = await db.device.findFirstOrThrow()
    await revokeDevice({ id: device.id }, owner)
    expect(await db.session.count()).toBe(0)
    await expect(signInWithPin({ userId: id, pin: '4827' })).rejects.toMatchObject({ code: 'not-allowed' })
    await expect(revokeDevice({ id: device.id }, owner)).rejects.toMatchObject({ code: 'already-done' })
  })
})

describe('Devices and sessions', () => {
  it('no device is admitted when admitting fails half-way', async () => {
    const owner = await actorWithRole('owner')
    await refuseHistory()
    await expect(admitDevice({ name: 'Bench tablet' }, owner)).rejects.toThrow('history is refused')
    expect(await db.device.count()).toBe(0)
  })

  it('the device and its sessions stay when revoking fails half-way', async () => {
    const owner = await actorWithRole('owner')
    await admitDevice({ name: 'Bench tablet' }, owner)
    const { id } = await person('bench', 'idris', '4827')
    await signInWithPin({ userId: id, pin: '4827' })
    const device = await db.device.findFirstOrThrow()
    await refuseHistory()
    await expect(revokeDevice({ id: device.id }, owner)).rejects.toThrow('history is refused')
    expect(await db.session.count()).toBe(1)
    expect(await db.device.findFirst({ select: { revokedAt: true } })).toEqual({ revokedAt: null })
  })

  it('an ended session is gone, and stays when ending it fails half-way', async () => {
    const owner = await actorWithRole('owner')
    await person('office', 'sela')
    await signIn({ login: 'sela', password })
    const { tokenHash } = await db.session.findFirstOrThrow()
    await endSession({ tokenHash }, owner)
    expect(await db.session.count()).toBe(0)
    await signIn({ login: 'sela', password })
    const again = await db.session.findFirstOrThrow()
    await refuseHistory()
    await expect(endSession({ tokenHash: again.tokenHash }, owner)).rejects.toThrow('history is refused')
    expect(await db.session.count()).toBe(1)
  })

  it('signing out ends this browser’s session and no other', async () => {
    await person('office', 'sela')
    await signIn({ login: 'sela', password })
    forgetBrowser()
    await signIn({ login: 'sela', password })
    await signOut()
    expect(await db.session.count()).toBe(1)
    expect(cookieValue(sessionCookie)).toBeUndefined()
  })

  it('whoever sits at an open session can’t guess at the password', async () => {
    await person('office', 'sela')
    const actor = await signIn({ login: 'sela', password })
    for (let index = 0; index < freeFailures.account; index += 1) {
      await expect(requireOwnPassword(actor, 'not this one')).rejects.toMatchObject({ field: 'current' })
    }
    await expect(requireOwnPassword(actor, password)).rejects.toMatchObject({ code: 'too-many-tries' })
  })
})

describe('Signing out everywhere else', () => {
  async function twoBrowsers() {
    const { id } = await person('office', 'sela')
    await db.session.create({
      data: { tokenHash: hashToken('x'), userId: id, expiresAt: new Date(Date.now() + 60_000) },
    })
    return signIn({ login: 'sela', password })
  }

  it('ends every session but this one, and nobody else’s', async () => {
    const other = await actorWithRole('bench')
    await db.session.create({
      data: { tokenHash: hashToken('y'), userId: other.userId, expiresAt: new Date(Date.now() + 60_000) },
    })
    const actor = await twoBrowsers()
    expect(await endOwnSessions(actor)).toEqual({ count: 1 })
    const left = await db.session.findMany({ select: { tokenHash: true } })
    const here = hashToken(cookieValue(sessionCookie) ?? '')
    expect(left.map(({ tokenHash }) => tokenHash).sort()).toEqual([here, hashToken('y')].sort())
    await expect(endOwnSessions(actor)).rejects.toMatchObject({ code: 'already-done' })
  })

  it('ends none where it fails half-way', async () => {
    const actor = await twoBrowsers()
    await refuseHistory()
    await expect(endOwnSessions(actor)).rejects.toThrow()
    expect(await db.session.count()).toBe(2)
  })
})
