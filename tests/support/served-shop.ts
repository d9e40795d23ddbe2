import { createHash, randomBytes } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import type { Browser } from './browser-test'
import { addressOf } from './entries'
import { emptyServedDatabase, servedRows, servedSetupKey } from './served-database'

/** The demo shop behind the app under test, with somebody of each kind who may knock at it. */
export const servedBase = `http://127.0.0.1:${process.env.BENDWRIGHT_E2E_PORT}`
export const servedDatabaseUrl = () => process.env.BENDWRIGHT_E2E_DATABASE_URL ?? ''
export const roles = ['owner', 'office', 'bench'] as const

/** What each sender's cookie holds; those who are not here send none. */
export const sessionTokens = new Map<string, string>()
export const hashOf = (token: string) => createHash('sha256').update(token).digest('hex')

export async function enterDemoShop(browser: Browser): Promise<void> {
  await emptyServedDatabase()
  const page = await browser.newPage({ baseURL: servedBase })
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
}

/** A session for each role, one that has run out, and one that the owner has ended. */
async function openSessions(): Promise<void> {
  sessionTokens.clear()
  const keep = async (key: string, role: string) => {
    sessionTokens.set(key, randomBytes(32).toString('base64url'))
    await servedRows('insert into "User" (login, name, role) values ($1, $1, $2::"Role")', [
      `tries-${key}`,
      role,
    ])
  }
  for (const role of roles) await keep(role, role)
  await keep('expired', 'owner')
  await keep('ended', 'owner')
  await restoreSessions()
  await servedRows(`insert into "Session" ("tokenHash", "userId", "expiresAt")
    select '${hashOf(sessionTokens.get('expired') ?? '')}', id, now() - interval '1 second' from "User" where login = 'tries-expired'`)
}

/** Whoever signed out, was made another role or was sent away while inputs were tried is let in again as before. */
export async function restoreSessions(): Promise<void> {
  for (const role of roles) {
    const token = hashOf(sessionTokens.get(role) ?? '')
    const [user] = await servedRows<{ id: number }>(
      `update "User" set role = $1::"Role", active = true where name = $2 returning id`,
      [role, `tries-${role}`],
    )
    if (!user) throw new Error(`The account of the ${role} who tries is gone`)
    await servedRows(
      `insert into "Session" ("tokenHash", "userId", "expiresAt") values ($1, $2, now() + interval '1 day')
       on conflict ("tokenHash") do nothing`,
      [token, user.id],
    )
  }
}

/** What stands for each name in an address: a row of the demo shop, so that a refusal is not a mere "not found". */
export async function addressFor(file: string): Promise<string> {
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

export function ask(address: string, as: string, init: RequestInit = {}): Promise<Response> {
  const token = sessionTokens.get(as)
  return fetch(servedBase + address, {
    redirect: 'manual',
    ...init,
    headers: { ...(token ? { cookie: `bendwright_session=${token}` } : {}), ...init.headers },
  })
}

/** The names by which a browser calls the actions, from the build, by the name each has in the sources. */
export function actionIds(): Map<string, string> {
  const file = path.resolve(import.meta.dirname, '../../.next/server/server-reference-manifest.json')
  const { node } = JSON.parse(fs.readFileSync(file, 'utf8')) as {
    node: Record<string, { exportedName?: string }>
  }
  return new Map(Object.entries(node).map(([id, { exportedName }]) => [exportedName ?? id, id]))
}

export type CustomerLink = { token: string; quoteId: number; customerId: number; lineIds: number[] }
type LinkState = 'open' | 'withdrawn' | 'lapsed' | 'replaced'

/** Sends a quote of the demo shop once more, under a token that the test knows; `replaced` by a later sending. */
export async function sendLink(quoteId: number, state: LinkState): Promise<CustomerLink> {
  const token = randomBytes(32).toString('base64url')
  const issued = `insert into "QuoteIssue" ("quoteId", issue, "tokenHash", snapshot, "expiresAt", "withdrawnAt")
    select "quoteId", (select max(issue) + 1 from "QuoteIssue" where "quoteId" = $1), $2, snapshot,
      now() + $3::interval, $4::timestamptz from "QuoteIssue" where "quoteId" = $1 order by issue desc limit 1`
  const expires = state === 'lapsed' ? '-1 minute' : '1 day'
  await servedRows(issued, [
    quoteId,
    hashOf(token),
    expires,
    state === 'withdrawn' || state === 'replaced' ? new Date() : null,
  ])
  if (state === 'replaced')
    await servedRows(issued, [quoteId, hashOf(randomBytes(32).toString('hex')), '1 day', null])
  const lines = await servedRows<{ id: number; customerId: number }>(
    `select l.id, q."customerId" from "QuoteLine" l join "Quote" q on q.id = l."quoteId" where q.id = $1 order by position`,
    [quoteId],
  )
  return { token, quoteId, customerId: lines[0]?.customerId ?? 0, lineIds: lines.map(({ id }) => id) }
}
