import fs from 'node:fs'
import path from 'node:path'
import fc from 'fast-check'
import { expect, test } from '../support/browser-test'
import { fuzzRuns, fuzzSeed } from '../support/hostile'
import { type HostileAnswer, type HostileRequest, hostileRequests, send } from '../support/hostile-requests'
import { rowSums } from '../support/row-sums'
import { servedRows } from '../support/served-database'
import {
  ask,
  type CustomerLink,
  enterDemoShop,
  restoreSessions,
  roles,
  sendLink,
  servedDatabaseUrl,
  sessionTokens,
} from '../support/served-shop'

const reports = path.resolve(import.meta.dirname, '../../reports')
const runCount = fuzzRuns(600)
/** Few at a time, fewer of those who may write: one change that is allowed leaves nothing to compare in its lot. */
const lotOf = { nobody: 20, somebody: 6 }
const atOnce = 6
const nobodies = ['signed out', 'expired', 'ended', 'elsewhere', 'link'] as const

let links: CustomerLink[]

test.beforeAll(async ({ browser }) => {
  test.setTimeout(180_000)
  await enterDemoShop(browser)
  const quotes = await servedRows<{ id: number }>(
    `select distinct on (q."customerId") q.id from "Quote" q join "QuoteIssue" i on i."quoteId" = q.id
     order by q."customerId", q.id limit 3`,
  )
  const [first = { id: 0 }, second = first] = quotes
  links = [
    await sendLink(first.id, 'open'),
    await sendLink(second.id, 'open'),
    await sendLink(first.id, 'withdrawn'),
    await sendLink(second.id, 'lapsed'),
  ]
  sessionTokens.set('link', links[0]?.token ?? '')
  // Noted at the first reading of a link: by now each has been read.
  await servedRows('update "QuoteIssue" set "firstReadAt" = now() where "firstReadAt" is null')
})

/** Everything but the count of failed sign-ins, which a refusal is meant to add to, and when somebody was last seen. */
async function keptRows(): Promise<Record<string, string>> {
  const { SignInAttempt: _tries, ...kept } = await rowSums(servedDatabaseUrl())
  return kept
}

/**
 * A change that the app has said yes to, or of which nothing is known: the framework says {} where an action was asked
 * for at another page's address and its answer came as a file. Of everything else no row may be left.
 */
const isAcknowledged = (one: HostileRequest, { status, text, place }: HostileAnswer) =>
  !['GET', 'HEAD', 'OPTIONS'].includes(one.method) &&
  // 0: cut off, before it could be read. 307 and 308: sent to another address, and nothing done at this one.
  [200, 303].includes(status) &&
  (place !== '' || text.includes('"ok":true') || text.startsWith('{}') || isFile(text))

/** The export answers with its archive. */
const isFile = (text: string) => text.startsWith('PK')

function faultOf(one: HostileRequest, answer: HostileAnswer): string | null {
  if (answer.status >= 500) return String(answer.status)
  // Whoever goes away, or sends far too much, is cut off; a head that cannot be sent never was.
  const cutOff = one.cut || one.body.length > 26_000_000 || /Invalid character|unescaped/.test(answer.text)
  return answer.status === 0 && !cutOff ? answer.text : null
}

const shown = (one: HostileRequest) =>
  JSON.stringify({ ...one, body: Buffer.from(one.body).toString('latin1').slice(0, 600) }).slice(0, 1500)

test('hostile input brings nothing down, and what is refused changes no row', async () => {
  test.setTimeout(6 * 3_600_000)
  const requests = await hostileRequests(links)
  const faults: string[] = []
  const changed: string[] = []
  const tally: Record<string, Record<string, number>> = {}
  let sentCount = 0
  let acknowledgedCount = 0
  let provenCount = 0
  let before = await keptRows()
  for (let lot = 0; sentCount < runCount && faults.length < 20 && changed.length < 5; lot += 1) {
    const who = sentCount < runCount / 2 ? 'nobody' : 'somebody'
    const numRuns = Math.min(lotOf[who], runCount - sentCount)
    const drawn = fc.sample(requests, { numRuns, seed: fuzzSeed + lot })
    const lotRequests = drawn.map(
      (one, at): HostileRequest =>
        who === 'somebody'
          ? { ...one, as: roles[(lot + at) % 3] ?? 'owner' }
          : { ...one, as: nobodies[(lot + at) % 5] ?? 'signed out' },
    )
    const waiting = [...lotRequests]
    const told: string[] = []
    let acknowledged = 0
    const work = async () => {
      for (let one = waiting.shift(); one; one = waiting.shift()) {
        const answer = await send(one)
        const fault = faultOf(one, answer)
        if (fault !== null) faults.push(`${fault} ${shown(one)}`)
        if (isAcknowledged(one, answer)) acknowledged += 1
        told.push(`${answer.status} ${answer.text.slice(0, 300)} for ${shown(one)}`)
        const kind = one.kind
          .replace(/^action \w+Action$/, 'action with its form')
          .replace(/^route .*/, 'route')
        tally[kind] = { ...tally[kind], [answer.status]: (tally[kind]?.[answer.status] ?? 0) + 1 }
      }
    }
    await Promise.all(Array.from({ length: atOnce }, work))
    sentCount += numRuns
    acknowledgedCount += acknowledged
    const after = await keptRows()
    if (acknowledged === 0) {
      provenCount += numRuns
      const tables = Object.keys(after).filter((table) => after[table] !== before[table])
      if (tables.length > 0) changed.push(`${tables.join(', ')} by one of\n${told.join('\n')}`)
    }
    if (acknowledged > 0 || who === 'somebody') await restoreSessions()
    before = acknowledged > 0 ? await keptRows() : after
    if (lot % 40 === 0)
      console.log(`${sentCount} sent, ${acknowledgedCount} acknowledged, ${faults.length} faults`)
  }
  fs.mkdirSync(reports, { recursive: true })
  const report = { seed: fuzzSeed, sentCount, acknowledgedCount, provenCount, tally, faults, changed }
  fs.writeFileSync(path.join(reports, 'fuzz-served.json'), `${JSON.stringify(report, null, 2)}\n`)
  console.log(JSON.stringify({ sentCount, acknowledgedCount, provenCount, tally }))
  expect(faults).toEqual([])
  expect(changed).toEqual([])
  // A run that was refused everything, or that never could compare the rows, has shown little.
  expect(acknowledgedCount).toBeGreaterThan(0)
  expect(provenCount).toBeGreaterThan(sentCount / 2)
  expect((await ask('/api/ready', 'signed out')).status).toBe(200)
})

test('the log of it tells no token, and of no failure that nobody caught', () => {
  const log = fs.readFileSync(path.join(reports, 'e2e-app.log'), 'utf8')
  for (const token of [...sessionTokens.values(), ...links.map((link) => link.token)]) {
    expect(log.includes(token)).toBe(false)
  }
  expect(log.includes('salt-marsh-and-tide')).toBe(false)
  // An action asked for at another page's address is answered within, where nobody sees the status but the log.
  expect(log.split('\n').filter((line) => /"event":"request".*"status":5\d\d/.test(line))).toEqual([])
  expect(log).not.toMatch(/unhandledRejection|uncaughtException|Unhandled/)
})
