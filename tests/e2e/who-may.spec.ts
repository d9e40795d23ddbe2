import { randomBytes } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { roleMay } from '@/lib/server/permissions'
import { expect, test } from '../support/browser-test'
import { pageEntries, routeEntries } from '../support/entries'
import { multipartBody, multipartType } from '../support/multipart'
import { rowSums } from '../support/row-sums'
import { servedRows } from '../support/served-database'
import {
  actionIds,
  addressFor,
  ask,
  servedBase as base,
  type CustomerLink,
  servedDatabaseUrl as databaseUrl,
  enterDemoShop,
  hashOf,
  roles,
  sendLink,
} from '../support/served-shop'

test.beforeAll(async ({ browser }) => {
  test.setTimeout(180_000)
  await enterDemoShop(browser)
})

test('every page and route is closed to whoever may not', async () => {
  test.setTimeout(600_000)
  const before = await rowSums(databaseUrl())
  const wrong: string[] = []
  const expectStatus = async (what: string, asked: Promise<Response>, fits: (status: number) => boolean) => {
    const answer = await asked
    await answer.arrayBuffer()
    if (!fits(answer.status)) wrong.push(`${what}: ${answer.status}`)
  }
  for (const { file, permission } of pageEntries()) {
    if (!permission) continue
    const address = await addressFor(file)
    for (const as of ['signed out', 'expired', 'ended']) {
      const answer = await ask(address, as)
      const place = answer.headers.get('location') ?? (await answer.text())
      if (answer.status >= 400 || !place.includes('/sign-in'))
        wrong.push(`${address} ${as}: ${answer.status}`)
    }
    for (const role of roles) {
      const may = roleMay(role, permission)
      await expectStatus(`${address} ${role}`, ask(address, role), (status) =>
        may ? status < 403 || status === 404 : status === 403,
      )
    }
  }
  for (const { file, name, permission } of routeEntries()) {
    if (!permission) continue
    const address = await addressFor(file)
    const changes = name !== 'GET'
    const init = (origin: string): RequestInit =>
      changes ? { method: name, body: '{}', headers: { origin } } : { method: name }
    for (const as of ['signed out', 'expired', 'ended']) {
      await expectStatus(`${address} ${as}`, ask(address, as, init(base)), (status) => status === 401)
    }
    for (const role of roles.filter((one) => !roleMay(one, permission))) {
      await expectStatus(`${address} ${role}`, ask(address, role, init(base)), (status) => status === 403)
    }
    if (!changes) continue
    await expectStatus(
      `${address} from elsewhere`,
      ask(address, 'owner', init('https://elsewhere.example')),
      (s) => s === 403,
    )
    await expectStatus(
      `${address} from nowhere`,
      ask(address, 'owner', { method: name, body: '{}' }),
      (s) => s === 403,
    )
  }
  expect(wrong).toEqual([])
  expect(await rowSums(databaseUrl())).toEqual(before)
})

test.describe('a customer’s link', () => {
  let own: CustomerLink
  let other: CustomerLink

  test.beforeAll(async () => {
    const quotes = await servedRows<{ id: number }>(
      `select distinct on (q."customerId") q.id from "Quote" q join "QuoteIssue" i on i."quoteId" = q.id
       where q.status = 'sent' order by q."customerId", q.id desc`,
    )
    expect(quotes.length, 'two customers of the demo shop have a quote').toBeGreaterThan(1)
    own = await sendLink(quotes[0]?.id ?? 0, 'open')
    other = await sendLink(quotes[1]?.id ?? 0, 'open')
  })

  /** As a browser answers: by its script, or, before that is there, as a plain form. */
  const answer = async (action: 'accept' | 'decline', token: string, lineId: number, plain = false) => {
    const id = actionIds().get(`${action}QuoteAction`) ?? ''
    const fields = { token, [`quantity-${lineId}`]: '1000', name: 'Ines Marlow', note: '' }
    const typed = Object.entries(fields)
    const parts = plain
      ? [
          { name: '$ACTION_REF_1', value: '' },
          { name: '$ACTION_1:0', value: JSON.stringify({ id, bound: '$@1' }) },
          { name: '$ACTION_1:1', value: '[null]' },
          ...typed.map(([name, value]) => ({ name, value })),
        ]
      : [
          ...typed.map(([name, value]) => ({ name: `_1_${name}`, value })),
          { name: '0', value: '[null,"$K1"]' },
        ]
    const sent = await ask(`/q/${token}`, 'signed out', {
      method: 'POST',
      body: new Uint8Array(multipartBody(parts)),
      headers: { origin: base, 'content-type': multipartType, ...(plain ? {} : { 'next-action': id }) },
    })
    return {
      status: sent.status,
      text: await sent.text(),
      moved: sent.status === 303 || sent.headers.has('x-action-redirect'),
    }
  }

  test('opens its own quote and nothing else, and no other link’s', async () => {
    const before = await rowSums(databaseUrl())
    const names = await servedRows<{ id: number; name: string }>(
      'select id, name from "Customer" where id = any($1)',
      [[own.customerId, other.customerId]],
    )
    const nameOf = (id: number) => names.find((one) => one.id === id)?.name ?? ''
    const guess = randomBytes(32).toString('base64url')
    for (const token of [
      guess,
      own.token.slice(0, -1),
      `${own.token}x`,
      own.token.toLowerCase(),
      hashOf(own.token),
    ]) {
      expect((await ask(`/q/${token}`, 'signed out')).status).toBe(404)
      expect((await ask(`/q/${token}/quote.pdf`, 'signed out')).status).toBe(404)
    }
    for (const page of [
      '/',
      '/quotes',
      `/quotes/${own.quoteId}`,
      '/parts',
      '/customers',
      '/files/1',
      '/api/spec',
    ]) {
      const found = await ask(page, 'signed out', { headers: { cookie: `bendwright_session=${own.token}` } })
      const place = found.headers.get('location') ?? (await found.text())
      expect(`${found.status} ${place}`, page).toMatch(/401|405|sign-in/)
    }
    expect(await rowSums(databaseUrl())).toEqual(before)
    const page = await ask(`/q/${own.token}`, 'signed out')
    expect(page.status).toBe(200)
    expect(page.headers.get('referrer-policy')).toMatch(/same-origin|no-referrer/)
    const text = await page.text()
    expect(text).toContain(nameOf(own.customerId))
    expect(text).not.toContain(nameOf(other.customerId))
    expect(text).toContain('no-referrer')
    const paper = await ask(`/q/${own.token}/quote.pdf`, 'signed out')
    expect([paper.status, paper.headers.get('content-type')]).toEqual([200, 'application/pdf'])
  })

  test('is 256 random bits, of which only the hash is kept', async () => {
    expect(Buffer.from(own.token, 'base64url')).toHaveLength(32)
    const tables = await servedRows<{ name: string }>(
      `select tablename as name from pg_tables where schemaname = 'public'`,
    )
    for (const { name } of tables) {
      const found = await servedRows(`select 1 from "${name}" r where position($1 in r::text) > 0 limit 1`, [
        own.token,
      ])
      expect(found, name).toEqual([])
    }
    // What the app itself makes and hands out, not what the test made.
    const made = await servedRows<{ tokenHash: string }>('select "tokenHash" from "QuoteIssue"')
    for (const { tokenHash } of made) expect(tokenHash).toMatch(/^[\da-f]{64}$/)
    const log = fs.readFileSync(path.resolve(import.meta.dirname, '../../reports/e2e-app.log'), 'utf8')
    expect(log).not.toContain(own.token)
  })

  for (const state of ['withdrawn', 'lapsed', 'replaced'] as const) {
    test(`says so when ${state}, and takes no answer`, async () => {
      const link = await sendLink(own.quoteId, state)
      const page = await ask(`/q/${link.token}`, 'signed out')
      const text = await page.text()
      expect(text).toMatch(state === 'lapsed' ? /last day has passed/ : /took this quote back/)
      expect(text).not.toContain('Accept this quote')
      expect((await ask(`/q/${link.token}/quote.pdf`, 'signed out')).status).toBe(200)
      const before = await rowSums(databaseUrl())
      for (const plain of [false, true])
        for (const action of ['accept', 'decline'] as const) {
          const refused = await answer(action, link.token, link.lineIds[0] ?? 0, plain)
          expect(refused.moved, `${action} ${refused.status}`).toBe(false)
          expect(refused.text).toMatch(/withdrawn|lapsed|took this quote back|last day has passed/)
        }
      expect(await rowSums(databaseUrl())).toEqual(before)
    })
  }

  test('takes no line of another customer’s quote', async () => {
    const before = await rowSums(databaseUrl())
    const refused = await answer('accept', own.token, other.lineIds[0] ?? 0)
    expect(refused.moved).toBe(false)
    expect(refused.text).toContain('This quantity was not offered.')
    expect(await rowSums(databaseUrl())).toEqual(before)
  })

  test('answers its own quote once, and leaves the other customer’s alone', async () => {
    const others = () =>
      servedRows(
        'select q.*, i.answer from "Quote" q join "QuoteIssue" i on i."quoteId" = q.id where q.id = $1 order by i.id',
        [other.quoteId],
      )
    const before = await others()
    expect((await answer('accept', own.token, own.lineIds[0] ?? 0)).moved).toBe(true)
    const [quote] = await servedRows<{ status: string }>('select status from "Quote" where id = $1', [
      own.quoteId,
    ])
    expect(quote?.status).toBe('accepted')
    const sums = await rowSums(databaseUrl())
    const again = await answer('decline', own.token, own.lineIds[0] ?? 0)
    expect(again.moved).toBe(false)
    expect(again.text).toContain('accepted already')
    expect(await rowSums(databaseUrl())).toEqual(sums)
    expect(await others()).toEqual(before)
  })
})

test('no action runs without a session or from another site, whatever is sent', async () => {
  const before = await rowSums(databaseUrl())
  const names = [...actionIds().values()]
  expect(names.length).toBeGreaterThan(50)
  for (const name of names) {
    const headers = { 'next-action': name, 'content-type': 'text/plain;charset=UTF-8' }
    const send = (as: string, more: Record<string, string>, address = '/parts') =>
      ask(address, as, { method: 'POST', body: '[{}]', headers: { ...headers, ...more } })
    for (const address of ['/parts', '/files/1', '/favicon.ico', '/nowhere']) {
      expect((await send('owner', {}, address)).status).toBe(403)
      expect((await send('owner', { origin: 'https://elsewhere.example' }, address)).status).toBe(403)
      expect((await send('owner', { origin: base, 'sec-fetch-site': 'cross-site' }, address)).status).toBe(
        403,
      )
    }
  }
  expect(await rowSums(databaseUrl())).toEqual(before)
})
