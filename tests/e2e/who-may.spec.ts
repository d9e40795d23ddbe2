import { createHash, randomBytes } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import fc from 'fast-check'
import { roleMay } from '@/lib/server/permissions'
import { expect, test } from '../support/browser-test'
import { addressOf, pageEntries, routeEntries } from '../support/entries'
import { fuzzSeed, hostileForm, hostileJson, hostileText } from '../support/hostile'
import { rowSums } from '../support/row-sums'
import { emptyServedDatabase, servedRows, servedSetupKey } from '../support/served-database'

const base = `http://127.0.0.1:${process.env.BENDWRIGHT_E2E_PORT}`
const databaseUrl = () => process.env.BENDWRIGHT_E2E_DATABASE_URL ?? ''
const roles = ['owner', 'office', 'bench'] as const
const tokens = new Map<string, string>()

/** What stands for each name in an address: a row of the demo shop, so that a refusal is not a mere "not found". */
async function addressFor(file: string): Promise<string> {
  const place = addressOf(file)
  const tables: readonly (readonly [RegExp, string])[] = [
    [/^\/customers/, 'Customer'],
    [/^\/jobs/, 'Job'],
    [/^\/quotes/, 'Quote'],
    [/^\/people/, 'User'],
    [/^\/stock/, 'StockLot'],
    [/^\/files/, 'StoredFile'],
    [/^\/shop\/presses/, 'Press'],
    [/^\/shop\/dies/, 'Die'],
    [/^\/shop\/straps/, 'Strap'],
    [/^\/shop\/fillers/, 'Filler'],
  ]
  const table = tables.find(([begins]) => begins.test(place))?.[1]
  const rows = table ? await servedRows<{ id: number }>(`select id from "${table}" order by id limit 1`) : []
  return place.replace(/\[[^\]]+\]/g, String(rows[0]?.id ?? 1))
}

function ask(address: string, as: string, init: RequestInit = {}): Promise<Response> {
  const token = tokens.get(as)
  return fetch(base + address, {
    redirect: 'manual',
    ...init,
    headers: { ...(token ? { cookie: `bendwright_session=${token}` } : {}), ...init.headers },
  })
}

async function openSessions(): Promise<void> {
  const keep = async (key: string, role: string, expires: string) => {
    const token = randomBytes(32).toString('base64url')
    tokens.set(key, token)
    const [user] = await servedRows<{ id: number }>(
      'insert into "User" (login, name, role) values ($1, $1, $2::"Role") returning id',
      [`tries-${key}`, role],
    )
    await servedRows(
      `insert into "Session" ("tokenHash", "userId", "expiresAt") values ($1, $2, now() + $3::interval)`,
      [createHash('sha256').update(token).digest('hex'), user?.id, expires],
    )
  }
  for (const role of roles) await keep(role, role, '1 day')
  await keep('expired', 'owner', '-1 second')
  await keep('ended', 'owner', '1 day')
  await servedRows(
    `delete from "Session" s using "User" u where u.id = s."userId" and u.login = 'tries-ended'`,
  )
}

test.beforeAll(async ({ browser }) => {
  test.setTimeout(180_000)
  await emptyServedDatabase()
  const page = await browser.newPage({ baseURL: base })
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('The demo shop').check()
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.locator('button[type=submit]').click()
  await page.waitForURL((url) => url.pathname === '/', { timeout: 120_000 })
  await page.close()
  await openSessions()
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

test('a customer’s link opens its own quote and no other', async () => {
  const before = await rowSums(databaseUrl())
  const guess = randomBytes(32).toString('base64url')
  expect((await ask(`/q/${guess}`, 'signed out')).status).toBe(404)
  expect((await ask(`/q/${guess}/quote.pdf`, 'signed out')).status).toBe(404)
  for (const page of ['/quotes', '/parts', '/customers']) {
    const answer = await ask(page, 'signed out', { headers: { cookie: `bendwright_session=${guess}` } })
    expect(answer.headers.get('location') ?? (await answer.text())).toContain('/sign-in')
  }
  expect(await rowSums(databaseUrl())).toEqual(before)
})

/** The names by which a browser calls the actions, from the build. */
function actionNames(): string[] {
  const file = path.resolve(import.meta.dirname, '../../.next/server/server-reference-manifest.json')
  const manifest = JSON.parse(fs.readFileSync(file, 'utf8')) as { node: Record<string, unknown> }
  return Object.keys(manifest.node)
}

test('no action runs without a session or from another site, whatever is sent', async () => {
  const before = await rowSums(databaseUrl())
  const names = actionNames()
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

test('hostile input brings no route, page or action down', async () => {
  test.setTimeout(6 * 3_600_000)
  const runs = Number(process.env.BENDWRIGHT_FUZZ_RUNS ?? 300)
  const names = actionNames()
  const pages = await Promise.all(pageEntries().map(({ file }) => addressFor(file)))
  const posts = ['/api/spec', '/api/estimate', '/api/bench']
  const text = fc.oneof(
    hostileText,
    hostileJson.map((value) => JSON.stringify(value) ?? ''),
  )
  const request = fc.record({
    as: fc.constantFrom('signed out', 'expired', 'bench', 'office', 'owner'),
    kind: fc.constantFrom('page', 'post', 'action', 'address'),
    page: fc.constantFrom(...pages),
    post: fc.constantFrom(...posts),
    name: fc.constantFrom(...names),
    text,
    query: hostileText,
    form: hostileForm(['id', 'version', 'name', 'token', 'kind', 'revisionId', 'lines', 'demo']),
  })
  const failed: string[] = []
  const tryOne = async (one: { as: string; address: string; init: RequestInit }) => {
    const answer = await ask(one.address, one.as, one.init)
    await answer.arrayBuffer()
    if (answer.status >= 500) failed.push(`${answer.status} ${JSON.stringify(one).slice(0, 600)}`)
  }
  const describe = (value: Sample) => {
    const query = encodeURIComponent(Buffer.from(value.query.slice(0, 500)).toString())
    const action = { 'next-action': value.name, 'content-type': 'text/plain;charset=UTF-8', origin: base }
    switch (value.kind) {
      case 'page':
        return { as: value.as, address: `${value.page}?q=${query}&page=${query}`, init: {} }
      case 'address':
        return { as: value.as, address: `${value.page.replace(/\d+/, query || 'x')}`, init: {} }
      case 'post':
        return {
          as: value.as,
          address: value.post,
          init: { method: 'POST', body: value.text, headers: { origin: base } },
        }
      default:
        return {
          as: value.as,
          address: '/parts',
          init: { method: 'POST', body: JSON.stringify([value.form]) ?? '[]', headers: action },
        }
    }
  }
  const samples: Sample[] = fc.sample(request, { numRuns: runs, seed: fuzzSeed })
  for (let at = 0; at < samples.length; at += 8) {
    await Promise.all(samples.slice(at, at + 8).map((sample) => tryOne(describe(sample))))
    if (failed.length > 20) break
  }
  expect(failed).toEqual([])
  expect((await ask('/api/ready', 'signed out')).status).toBe(200)
})

type Sample = {
  as: string
  kind: string
  page: string
  post: string
  name: string
  text: string
  query: string
  form: Record<string, unknown>
}
