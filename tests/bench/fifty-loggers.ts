import { randomBytes } from 'node:crypto'
import pg from 'pg'
import type { ScaleShop } from './scale-shop'

const triesEach = 4

/** Each of the shop's loggers enters tries at both bends of two pieces of their own and sends each twice, all at once; then the rows are counted. */
export async function logAtOnce(url: string, databaseUrl: string, shop: ScaleShop) {
  const timesMs: number[] = []
  const refusals: string[] = []
  const keys: string[] = []
  const startedMs = performance.now()
  await Promise.all(
    shop.cookies.map(async (cookie, who) => {
      for (let count = 0; count < triesEach; count += 1) {
        const clientKey = randomBytes(16).toString('base64url')
        keys.push(clientKey)
        const scanCode = shop.freshCodes[2 * who + (count >> 1)] ?? ''
        const body = JSON.stringify(readings(scanCode, 1 + (count % 2), clientKey))
        for (let sending = 0; sending < 2; sending += 1) {
          const sentMs = performance.now()
          const answer = await fetch(`${url}/api/bench`, {
            method: 'POST',
            headers: { cookie, origin: url, 'content-type': 'application/json' },
            body,
          })
          timesMs.push(performance.now() - sentMs)
          const text = await answer.text()
          if (!text.includes('"ok":true')) refusals.push(`${answer.status} ${text}`)
        }
      }
    }),
  )
  const seconds = (performance.now() - startedMs) / 1000
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  const { rows } = await client.query<{ rows: number; keys: number }>(
    'select count(*)::int as rows, count(distinct "clientKey")::int as keys from "BendRecord" where "clientKey" = any($1)',
    [keys],
  )
  await client.end()
  timesMs.sort((a, b) => a - b)
  return {
    people: shop.cookies.length,
    sent: timesMs.length,
    entered: keys.length,
    keptRows: rows[0]?.rows ?? 0,
    refusals: [...new Set(refusals)],
    perSecond: Math.round(timesMs.length / seconds),
    medianMs: Math.round(timesMs[timesMs.length >> 1] ?? 0),
    p95Ms: Math.round(timesMs[Math.floor(timesMs.length * 0.95)] ?? 0),
  }
}

/** A try that cracked: judged at once whatever is not measured, with its fault, which is the most that a try writes. */
export function readings(scanCode: string, bendPosition: number, clientKey: string) {
  return {
    kind: 'try',
    clientKey,
    scanCode,
    bendPosition,
    targetAtPressDeg: '40',
    loadedAngleDeg: '',
    angleAtPressDeg: '20.1',
    angleFinalDeg: '5',
    radiusMm: '',
    widthOutsideMm: '',
    widthMiddleMm: '',
    widthInsideMm: '',
    heightMm: '',
    wallOutsideMm: '',
    wallInsideMm: '',
    look: 'cracked',
    dyePenetrant: 'notDone',
    gaugeText: 'protractor',
    gaugeUncertaintyDeg: '0.1',
    noteText: '',
  }
}
