import path from 'node:path'
import { beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { db } from '@/lib/server/db'
import type { Role } from '@/lib/server/generated/prisma/enums'
import { type Permission, permissions, roleMay } from '@/lib/server/permissions'
import { hashToken, newToken, sessionCookie } from '@/lib/server/session'
import { browserSays, cookies, forgetBrowser } from '@/tests/support/browser-request'
import { freshDatabase } from '@/tests/support/database'
import { actionEntries, type Entry, pageEntries, routeEntries } from '@/tests/support/entries'
import { rowSums } from '@/tests/support/row-sums'

vi.mock('next/headers', () => import('@/tests/support/browser-request'))
vi.mock('next/cache', () => ({ revalidatePath: () => {} }))

/** What answers without a session, each with what stands in place of one. */
const open: Readonly<Record<string, string>> = {
  'app/sign-in/page.tsx page': 'where sessions begin',
  'app/sign-in/actions.ts signInAction': 'the password, rate-limited',
  'app/sign-in/actions.ts pinSignInAction': 'the PIN on an admitted device, rate-limited',
  'app/sign-in/actions.ts signOutAction': 'ends only the session of whoever asks',
  'app/setup/page.tsx page': 'the key that the start printed, while there is no account',
  'app/setup/actions.ts setUpAction': 'the same key, in one transaction with the first account',
  'app/welcome/[token]/page.tsx page': 'a one-time link',
  'app/welcome/actions.ts acceptLinkAction': 'a one-time link',
  'app/forgotten/page.tsx page': 'says the same to everybody, and only where the shop sends mail',
  'app/forgotten/actions.ts forgottenAction': 'mails a link to an account’s own address, rate-limited',
  'app/q/[token]/page.tsx page': 'the customer’s link',
  'app/q/[token]/actions.ts acceptQuoteAction': 'the customer’s link',
  'app/q/[token]/actions.ts declineQuoteAction': 'the customer’s link',
  'app/q/[token]/actions.ts noteOpenedAction':
    'the customer’s link, and writes only when it was first opened',
  'app/q/[token]/quote.pdf/route.ts GET': 'the customer’s link',
  'app/api/health/route.ts GET': 'says that the process answers, and no more',
  'app/api/ready/route.ts GET': 'says whether the database answers, and no more',
  'app/api/metrics/route.ts GET': 'the metrics token, off where none is set',
}

const roles = ['owner', 'office', 'bench'] as const
const keyOf = ({ file, name }: Entry) => `${file} ${name}`
const actions = actionEntries()
const routes = routeEntries()
const guarded = (entries: readonly Entry[]) =>
  entries.flatMap((entry) => (entry.permission ? [{ ...entry, permission: entry.permission }] : []))

let url: string
const tokens = new Map<string, string>()

/** A session of every kind there is: one a role, one that has run out, one ended, one of somebody who has left. */
beforeAll(async () => {
  url = (await freshDatabase()).url
  await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
  const session = async (key: string, role: Role, as: { active?: boolean; expired?: boolean } = {}) => {
    const user = await db.user.create({ data: { login: key, name: key, role, active: as.active ?? true } })
    const token = newToken()
    tokens.set(key, token)
    const expiresAt = new Date(Date.now() + (as.expired ? -1000 : 3_600_000))
    await db.session.create({ data: { tokenHash: hashToken(token), userId: user.id, expiresAt } })
    return user.id
  }
  for (const role of roles) await session(role, role)
  await session('expired', 'owner', { expired: true })
  await session('left', 'owner', { active: false })
  await session('ended', 'owner')
  await db.session.deleteMany({ where: { user: { login: 'ended' } } })
  tokens.set('forged', newToken())
})

beforeEach(forgetBrowser)

async function be(key: string): Promise<void> {
  forgetBrowser()
  const token = tokens.get(key)
  if (token) (await cookies()).set(sessionCookie, token)
}

const load = async (file: string) =>
  (await import(/* @vite-ignore */ path.resolve(import.meta.dirname, '../..', file))) as Record<
    string,
    (...args: unknown[]) => Promise<unknown>
  >

describe('every way in', () => {
  it('is found in the source tree', () => {
    expect(actions.length).toBeGreaterThan(50)
    expect(pageEntries().length).toBeGreaterThan(30)
    expect(routes.length).toBeGreaterThan(5)
  })

  it('names a permission of the table, or stands in the list of what is open and why', () => {
    const bare = [...actions, ...routes, ...pageEntries()]
      .filter(({ permission }) => permission === null)
      .map(keyOf)
    expect(bare.filter((key) => !(key in open))).toEqual([])
  })

  it('is guarded or open, not both', () => {
    const keys = guarded([...actions, ...routes, ...pageEntries()]).map(keyOf)
    expect(keys.filter((key) => key in open)).toEqual([])
  })
})

describe('the table', () => {
  const allowed = (role: Role) => Object.keys(permissions).filter((key) => roleMay(role, key as Permission))

  it('shows the bench no price, customer or person, and lets it write only what the bench does', () => {
    const noun = /^(customer|estimate|source|ask|decision|quote|shop|person|device|audit|data|demo|rate)\./
    expect(allowed('bench').filter((key) => noun.test(key))).toEqual([])
    expect(allowed('bench').filter((key) => key.endsWith('.write'))).toEqual([
      'filler.write',
      'bench.write',
      'fault.write',
    ])
  })

  it('keeps people, devices, rates, the audit list and the shop’s data for the owner', () => {
    const owners = allowed('owner').filter((key) => !roleMay('office', key as Permission))
    expect(owners).toEqual(
      expect.arrayContaining(['shop.write', 'person.write', 'device.write', 'audit.read', 'data.export']),
    )
    expect(allowed('owner')).toEqual(Object.keys(permissions))
  })
})

describe('every action', () => {
  it.each(guarded(actions).map((entry) => [keyOf(entry), entry] as const))('%s', async (_key, entry) => {
    const action = (await load(entry.file))[entry.name]
    if (!action) throw new Error('not exported')
    const atFirst = await rowSums(url)
    for (const key of ['signed out', 'expired', 'ended', 'left', 'forged']) {
      await be(key)
      expect(await action({}), key).toMatchObject({ ok: false, code: 'not-signed-in' })
    }
    expect(await rowSums(url)).toEqual(atFirst)
    for (const role of roles) {
      await be(role)
      const before = await rowSums(url)
      const answer = (await action({ demo: 'no', id: 'nonsense' })) as { ok: boolean; code?: string }
      if (roleMay(role, entry.permission)) {
        expect(['not-allowed', 'not-signed-in'], role).not.toContain(answer.code)
      } else {
        expect(answer, role).toMatchObject({ ok: false, code: 'not-allowed' })
      }
      if (!answer.ok) expect(await rowSums(url), role).toEqual(before)
    }
  })
})

describe('every route', () => {
  const cases = guarded(routes).map((entry) => [keyOf(entry), entry] as const)

  it.each(cases)('%s', async (_key, entry) => {
    const handler = (await load(entry.file))[entry.name]
    if (!handler) throw new Error('not exported')
    const changes = entry.name !== 'GET' && entry.name !== 'HEAD'
    const ask = async (origin?: string) => {
      browserSays(origin === undefined ? {} : { host: 'shop.test', origin })
      const request = new Request('http://shop.test/x', {
        method: entry.name,
        ...(changes ? { body: '{}' } : {}),
      })
      const params = Promise.resolve({ id: '999999', token: 'x', code: 'x', slug: ['x'] })
      return (await handler(request, { params })) as Response
    }
    const atFirst = await rowSums(url)
    for (const key of ['signed out', 'expired', 'ended', 'left', 'forged']) {
      await be(key)
      expect((await ask('http://shop.test')).status, key).toBe(401)
    }
    expect(await rowSums(url)).toEqual(atFirst)
    for (const role of roles) {
      await be(role)
      const before = await rowSums(url)
      const { status } = await ask('http://shop.test')
      if (roleMay(role, entry.permission)) expect([401, 403], role).not.toContain(status)
      else {
        expect(status, role).toBe(403)
        expect(await rowSums(url), role).toEqual(before)
      }
      expect(status, role).toBeLessThan(500)
    }
    if (!changes) return
    await be('owner')
    const before = await rowSums(url)
    for (const origin of [undefined, 'null', 'https://elsewhere.example', 'http://shop.test:81']) {
      expect((await ask(origin)).status, origin).toBe(403)
    }
    expect(await rowSums(url)).toEqual(before)
  })
})
