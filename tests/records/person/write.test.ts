import { beforeEach, describe, expect, it, vi } from 'vitest'
import { linkDays } from '@/lib/records/person/rules'
import { ownPinForm } from '@/lib/records/person/schema'
import {
  acceptLink,
  changeOwnPassword,
  changePerson,
  deactivatePerson,
  invitePerson,
  linkPerson,
  reactivatePerson,
  removeOwnPin,
  setOwnPin,
} from '@/lib/records/person/write'
import { signIn } from '@/lib/records/session/write'
import { db } from '@/lib/server/db'
import { passwordFits } from '@/lib/server/password'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { forgetBrowser } from '@/tests/support/browser-request'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'

vi.mock('next/headers', () => import('@/tests/support/browser-request'))

const password = 'three words of a harbour'
const idris = { name: 'Idris Cole', login: 'idris', role: 'bench', email: null } as const
let owner: Actor

beforeEach(async () => {
  await freshDatabase()
  forgetBrowser()
  owner = await actorWithRole('owner', 'Mara Quill')
})

const tokenOf = (linkPath: string) => linkPath.split('/').at(-1) ?? ''

async function invited() {
  const { id, linkPath } = await invitePerson(idris, owner)
  return { id, token: tokenOf(linkPath) }
}

async function joined() {
  const { id, token } = await invited()
  const actor = await acceptLink({ token, password, passwordAgain: password })
  return { id, actor }
}

describe('An invitation', () => {
  it('is kept as a hash and sets a password once', async () => {
    const { id, token } = await invited()
    expect(JSON.stringify(await db.oneTimeLink.findMany())).not.toContain(token)
    expect(await acceptLink({ token, password, passwordAgain: password })).toMatchObject({
      userId: id,
      role: 'bench',
    })
    const again = acceptLink({ token, password: 'another password', passwordAgain: 'another password' })
    await expect(again).rejects.toMatchObject({ code: 'already-done' })
    const user = await db.user.findUniqueOrThrow({ where: { id } })
    expect(await passwordFits(user.passwordHash, password)).toBe(true)
  })

  it('is used by one of two who press at the same moment', async () => {
    const { token } = await invited()
    const presses = [1, 2].map(() => acceptLink({ token, password, passwordAgain: password }))
    const outcomes = await Promise.allSettled(presses)
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
  })

  it('runs out after seven days', async () => {
    const { token } = await invited()
    const { expiresAt } = await db.oneTimeLink.findFirstOrThrow()
    expect(Math.round((expiresAt.getTime() - Date.now()) / 86_400_000)).toBe(linkDays)
    await db.oneTimeLink.updateMany({ data: { expiresAt: new Date(Date.now() - 1000) } })
    await expect(acceptLink({ token, password, passwordAgain: password })).rejects.toMatchObject({
      code: 'already-done',
    })
  })

  it('is worth nothing once a newer link was made', async () => {
    const { id, token } = await invited()
    const newer = await linkPerson({ id }, owner)
    await expect(acceptLink({ token, password, passwordAgain: password })).rejects.toMatchObject({
      code: 'already-done',
    })
    await expect(
      acceptLink({ token: tokenOf(newer.linkPath), password, passwordAgain: password }),
    ).resolves.toMatchObject({ userId: id })
  })

  it('is refused for a sign-in name that somebody has', async () => {
    await invited()
    await expect(invitePerson(idris, owner)).rejects.toMatchObject({ field: 'login' })
  })

  it('leaves no account behind when it fails half-way', async () => {
    await refuseHistory()
    await expect(invitePerson(idris, owner)).rejects.toThrow('history is refused')
    expect(await db.user.count({ where: { login: 'idris' } })).toBe(0)
    expect(await db.oneTimeLink.count()).toBe(0)
  })

  it('can be used again when using it failed half-way', async () => {
    const { id, token } = await invited()
    await refuseHistory()
    await expect(acceptLink({ token, password, passwordAgain: password })).rejects.toThrow(
      'history is refused',
    )
    expect(await db.oneTimeLink.findFirst({ select: { usedAt: true } })).toEqual({ usedAt: null })
    expect(await db.user.findUnique({ where: { id }, select: { passwordHash: true } })).toEqual({
      passwordHash: null,
    })
    expect(await db.session.count()).toBe(0)
  })

  it('a reset ends every session the person had', async () => {
    const { id } = await joined()
    forgetBrowser()
    const { linkPath } = await linkPerson({ id }, owner)
    await acceptLink({
      token: tokenOf(linkPath),
      password: 'a whole new phrase',
      passwordAgain: 'a whole new phrase',
    })
    expect(await db.session.count({ where: { userId: id } })).toBe(1)
  })

  it('no link is made, and the earlier one holds, when making one fails half-way', async () => {
    const { id, token } = await invited()
    await refuseHistory()
    await expect(linkPerson({ id }, owner)).rejects.toThrow('history is refused')
    expect(await db.oneTimeLink.count({ where: { userId: id, usedAt: null } })).toBe(1)
    expect(token).not.toBe('')
  })
})

describe('An account', () => {
  it('ends at once everywhere, and its open link with it', async () => {
    const { id } = await joined()
    await linkPerson({ id }, owner)
    await deactivatePerson({ id }, owner)
    expect(await db.session.count({ where: { userId: id } })).toBe(0)
    expect(await db.oneTimeLink.count({ where: { userId: id, usedAt: null } })).toBe(0)
    await expect(signIn({ login: 'idris', password })).rejects.toMatchObject({ code: 'not-signed-in' })
    await expect(linkPerson({ id }, owner)).rejects.toMatchObject({ code: 'wrong-state' })
    await reactivatePerson({ id }, owner)
    await expect(signIn({ login: 'idris', password })).resolves.toMatchObject({ userId: id })
  })

  it('stays whole when ending it fails half-way', async () => {
    const { id } = await joined()
    await refuseHistory()
    await expect(deactivatePerson({ id }, owner)).rejects.toThrow('history is refused')
    expect(await db.user.findUnique({ where: { id }, select: { active: true } })).toEqual({ active: true })
    expect(await db.session.count({ where: { userId: id } })).toBe(1)
  })

  it('the last owner is neither ended nor made something else', async () => {
    await expect(deactivatePerson({ id: owner.userId }, owner)).rejects.toMatchObject({ code: 'wrong-state' })
    const user = await db.user.findUniqueOrThrow({ where: { id: owner.userId } })
    const demoted = changePerson(
      { id: user.id, version: 0, name: user.name, login: user.login, role: 'office', email: null },
      owner,
    )
    await expect(demoted).rejects.toMatchObject({ code: 'wrong-state' })
  })

  it('two owners who end each other at the same moment leave one', async () => {
    const other = await actorWithRole('owner', 'Sela Brandt')
    const presses = [
      deactivatePerson({ id: other.userId }, owner),
      deactivatePerson({ id: owner.userId }, other),
    ]
    const outcomes = await Promise.allSettled(presses)
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(await db.user.count({ where: { role: 'owner', active: true } })).toBe(1)
  })

  it('a change over somebody else’s newer one is refused', async () => {
    const { id } = await joined()
    const change = { id, version: 0, ...idris }
    await changePerson({ ...change, name: 'Idris M. Cole' }, owner)
    await expect(changePerson({ ...change, role: 'office' }, owner)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    })
    expect(await db.user.findUnique({ where: { id }, select: { role: true, name: true } })).toEqual({
      role: 'bench',
      name: 'Idris M. Cole',
    })
  })

  it('a change is kept with what it was before, or not at all', async () => {
    const { id } = await joined()
    await changePerson({ id, version: 0, ...idris, role: 'office' }, owner)
    const entry = await db.auditEntry.findFirst({ where: { action: 'changed' } })
    expect(entry).toMatchObject({
      actorText: 'Mara Quill',
      before: { role: 'bench' },
      after: { role: 'office' },
    })
    await refuseHistory()
    await expect(changePerson({ id, version: 1, ...idris }, owner)).rejects.toThrow('history is refused')
    expect(await db.user.findUnique({ where: { id }, select: { role: true } })).toEqual({ role: 'office' })
  })
})

describe('One’s own password and PIN', () => {
  it('a new password needs the old one, and ends the other sessions', async () => {
    const { actor } = await joined()
    forgetBrowser()
    await signIn({ login: 'idris', password })
    const next = 'a whole new phrase'
    await expect(
      changeOwnPassword({ current: 'not this one', next, again: next }, actor),
    ).rejects.toMatchObject({
      field: 'current',
    })
    await changeOwnPassword({ current: password, next, again: next }, actor)
    expect(await db.session.count({ where: { userId: actor.userId } })).toBe(1)
    await expect(signIn({ login: 'idris', password: next })).resolves.toMatchObject({ name: 'Idris Cole' })
  })

  it('the old password holds when changing it fails half-way', async () => {
    const { actor } = await joined()
    const { passwordHash } = await db.user.findUniqueOrThrow({ where: { id: actor.userId } })
    await refuseHistory()
    const next = 'a whole new phrase'
    await expect(changeOwnPassword({ current: password, next, again: next }, actor)).rejects.toThrow(
      'history is refused',
    )
    expect(await db.user.findUnique({ where: { id: actor.userId }, select: { passwordHash: true } })).toEqual(
      { passwordHash },
    )
  })

  it('a PIN is kept hashed, and can be removed; a failure half-way changes nothing', async () => {
    const { actor } = await joined()
    const pinOf = async () => (await db.user.findUniqueOrThrow({ where: { id: actor.userId } })).pinHash
    await setOwnPin({ current: password, pin: '4827', again: '4827' }, actor)
    const kept = await pinOf()
    expect(kept).toMatch(/^\$argon2id\$/)
    await refuseHistory()
    await expect(setOwnPin({ current: password, pin: '9153', again: '9153' }, actor)).rejects.toThrow(
      'history is refused',
    )
    await expect(removeOwnPin(actor)).rejects.toThrow('history is refused')
    expect(await pinOf()).toBe(kept)
  })

  it.each(['1111', '1234', '8765', '12', '123456789', '12a4'])('the PIN %s is refused', (pin) => {
    expect(ownPinForm.safeParse({ current: password, pin, again: pin }).success).toBe(false)
  })
})
