import { createHash, randomBytes } from 'node:crypto'
import fs from 'node:fs'
import { fromRoot } from '@/lib/launch/root.mjs'
import { davitArm } from '../records/part/typed-part'

/** What the shop said it has kept, and must have for ever from then on. */
export type Acknowledged =
  | { kind: 'customer'; id: number; name: string }
  | { kind: 'part'; id: number; name: string }
  | { kind: 'file'; id: number; sha256: string; byteCount: number }
  | { kind: 'try'; clientKey: string; angleDeg: number }

export type Shop = { url: string; cookie: string; customerId: number; partId: number; scanCodes: string[] }

type ActionList = { node: Record<string, { exportedName?: string }> }

/** The address of a server action, as the built app itself lists it. */
function actionId(name: string): string {
  const list = fs.readFileSync(fromRoot('.next', 'server', 'server-reference-manifest.json'), 'utf8')
  const found = Object.entries((JSON.parse(list) as ActionList).node).find(
    ([, entry]) => entry.exportedName === name,
  )
  if (!found) throw new Error(`The built app has no action ${name}`)
  return found[0]
}

/** Calls an action as a browser does. Only a whole answer that says ok is an acknowledgement; anything else is null. */
async function call(
  shop: Shop,
  page: string,
  action: string,
  body: string | FormData,
): Promise<{ id: number } | null> {
  const answer = await fetch(`${shop.url}${page}`, {
    method: 'POST',
    headers: {
      cookie: shop.cookie,
      origin: shop.url,
      'next-action': actionId(action),
      ...(typeof body === 'string' && { 'content-type': 'text/plain;charset=UTF-8' }),
    },
    body,
    signal: AbortSignal.timeout(20_000),
  })
  const text = await answer.text()
  const said = /^\w+:(\{"ok":.*\})$/m.exec(text)?.[1]
  if (!said) return null
  const outcome = JSON.parse(said) as { ok: boolean; code?: string; value: { id: number } }
  // The shop said itself that it could not save just now: no acknowledgement, and no fault of the rounds.
  if (!outcome.ok && outcome.code === 'no-database') return null
  if (!outcome.ok) throw new Error(`${action} was refused: ${said}`)
  return outcome.value
}

async function enterCustomer(shop: Shop): Promise<Acknowledged | null> {
  const name = `Load ${randomBytes(9).toString('hex')}`
  const contacts = ['one', 'two'].map((who) => ({ name: who, roleText: '', email: '', phone: '' }))
  const body = JSON.stringify([{ name, addressText: '', notesText: 'x'.repeat(1500), contacts }])
  const kept = await call(shop, '/customers/new', 'addCustomerAction', body)
  return kept && { kind: 'customer', id: kept.id, name }
}

async function enterPart(shop: Shop): Promise<Acknowledged | null> {
  const name = `Load ${randomBytes(9).toString('hex')}`
  const body = JSON.stringify([davitArm(shop.customerId, { name })])
  const kept = await call(shop, '/parts/new', 'addPartAction', body)
  return kept && { kind: 'part', id: kept.id, name }
}

async function attachFile(shop: Shop): Promise<Acknowledged | null> {
  const content = Buffer.concat([
    Buffer.from('%PDF-1.7\n'),
    randomBytes(20_000 + Math.floor(Math.random() * 400_000)),
  ])
  const body = new FormData()
  // The form is the action's first argument: $K1 names it, _1_ goes before its fields. Source: React's encodeReply.
  body.set('_1_partId', String(shop.partId))
  body.set('_1_file', new File([content], 'load.pdf'))
  body.set('0', '["$K1"]')
  const kept = await call(shop, `/parts/${shop.partId}`, 'addFileAction', body)
  const sha256 = createHash('sha256').update(content).digest('hex')
  return kept && { kind: 'file', id: kept.id, sha256, byteCount: content.length }
}

/** The bench's own address, and its promise: what is sent again is kept once. */
async function sendTry(shop: Shop, entry: Try): Promise<Acknowledged | null> {
  const answer = await fetch(`${shop.url}/api/bench`, {
    method: 'POST',
    headers: { cookie: shop.cookie, origin: shop.url, 'content-type': 'application/json' },
    body: JSON.stringify(entry),
    signal: AbortSignal.timeout(20_000),
  })
  const said = (await answer.json()) as { ok?: boolean }
  if (said.ok === true)
    return { kind: 'try', clientKey: entry.clientKey, angleDeg: Number(entry.angleFinalDeg) }
  if (answer.status < 500) throw new Error(`A try was refused: ${JSON.stringify(said)}`)
  return null
}

type Try = ReturnType<typeof newTry>

function newTry(scanCode: string) {
  const angleDeg = (25 + Math.random() * 10).toFixed(2)
  return {
    kind: 'try',
    clientKey: randomBytes(16).toString('base64url'),
    scanCode,
    bendPosition: 1,
    targetAtPressDeg: '40',
    loadedAngleDeg: '',
    angleAtPressDeg: '40.1',
    angleFinalDeg: angleDeg,
    radiusMm: '',
    widthOutsideMm: '',
    widthMiddleMm: '',
    widthInsideMm: '',
    heightMm: '',
    wallOutsideMm: '',
    wallInsideMm: '',
    look: 'clean',
    dyePenetrant: 'notDone',
    gaugeText: 'protractor',
    gaugeUncertaintyDeg: '0.1',
    noteText: '',
  }
}

/**
 * Several people and the bench, entering one after the other as fast as they are answered, until told to stop. What is
 * acknowledged goes into `kept` at that moment; a try without an answer is kept in `unanswered` to be sent again.
 */
export function startLoad(shop: Shop, kept: Acknowledged[], unanswered: Map<string, Try>) {
  let stopped = false
  const faults: string[] = []
  let sentCount = 0
  const keepOn = async (enter: () => Promise<Acknowledged | null>) => {
    while (!stopped) {
      sentCount += 1
      try {
        const acknowledged = await enter()
        if (acknowledged) kept.push(acknowledged)
      } catch (cause) {
        // A connection that breaks is what these rounds are about; a refusal is a fault of the rounds themselves.
        const message = cause instanceof Error ? cause.message : String(cause)
        if (/refused:|has no action/.test(message)) faults.push(message)
        await new Promise((resolve) => setTimeout(resolve, 50))
      }
    }
  }
  const bench = async () => {
    const [again] = unanswered.values()
    // A piece of its own for each try: one that waits for its melt-out would hold up the next.
    const entry = again ?? newTry(shop.scanCodes.pop() ?? '')
    unanswered.set(entry.clientKey, entry)
    const acknowledged = await sendTry(shop, entry)
    if (acknowledged) unanswered.delete(entry.clientKey)
    return acknowledged
  }
  const people = [
    keepOn(bench),
    keepOn(() => enterCustomer(shop)),
    keepOn(() => enterPart(shop)),
    keepOn(() => attachFile(shop)),
  ]
  return async () => {
    stopped = true
    await Promise.all(people)
    return { faults, sentCount }
  }
}

export type Unanswered = Map<string, Try>
