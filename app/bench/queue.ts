import type { BenchTyped } from '@/lib/records/bend-record/schema'

/** One entry on its way from this device to the shop. It stays here until the shop has answered it. */
export type QueuedEntry = {
  /** The entry's own client key: the shop keeps what is sent twice under one key once. */
  key: string
  order: number
  /** Who made it: sent only while the same person is signed in, so that no try is signed by another. */
  userId: number
  madeAt: string
  label: string
  entry: BenchTyped
  /** Why the shop would not keep it; null while it waits. */
  refusal: { message: string; fields: Record<string, string> } | null
  /** Set while the shop says that the entry this one belongs to has not arrived. */
  heldBack?: string
}

/** Where the queue is kept; IndexedDB on a device, a map in a test. */
export interface QueueStore {
  all(): Promise<QueuedEntry[]>
  put(item: QueuedEntry): Promise<void>
  remove(key: string): Promise<void>
}

export type Answer =
  | { kind: 'kept'; value: unknown }
  | { kind: 'refused'; message: string; fields: Record<string, string> }
  /** What the entry names is not there: for one that belongs to another entry, not there yet. */
  | { kind: 'missing'; message: string }
  /** Nothing is wrong with the entry: the shop did not answer, or answers nobody just now. */
  | { kind: 'later'; message: string }

export type Sender = (entry: BenchTyped) => Promise<Answer>

/** The entry that has to arrive before this one can. */
function neededKey(entry: BenchTyped): string | null {
  if (entry.kind === 'complete' || entry.kind === 'photo') return entry.recordKey
  return entry.kind === 'stop' ? entry.startKey : null
}

/** Puts an entry at the end of the queue. The same key again takes the old one's place. */
export async function addToQueue(
  store: QueueStore,
  item: Omit<QueuedEntry, 'order' | 'refusal' | 'key'>,
): Promise<void> {
  const waiting = await store.all()
  const same = waiting.find(({ key }) => key === item.entry.clientKey)
  const last = Math.max(0, ...waiting.map(({ order }) => order))
  await store.put({ ...item, key: item.entry.clientKey, order: same?.order ?? last + 1, refusal: null })
}

/**
 * Sends what waits, in the order it was made. A refused entry stays with its reason and does not hold up the others,
 * but for those that belong to it; nor does one whose try or start has not arrived yet, which is sent again. An entry
 * that the shop can't take now stops the round, so that nothing overtakes it.
 */
export async function sendQueue(
  store: QueueStore,
  send: Sender,
  userId: number,
): Promise<{ kept: unknown[]; later: string | null }> {
  const items = (await store.all()).sort((a, b) => a.order - b.order)
  const stuck = new Set(items.flatMap(({ key, refusal }) => (refusal ? [key] : [])))
  const kept: unknown[] = []
  let later: string | null = null
  for (const item of items) {
    const needed = neededKey(item.entry)
    if (item.refusal || item.userId !== userId || (needed !== null && stuck.has(needed))) {
      stuck.add(item.key)
      continue
    }
    const answer = await send(item.entry)
    if (answer.kind === 'later') return { kept, later: answer.message }
    if (answer.kind === 'kept') {
      await store.remove(item.key)
      kept.push(answer.value)
      continue
    }
    stuck.add(item.key)
    if (answer.kind === 'missing' && needed !== null) {
      await store.put({ ...item, heldBack: answer.message })
      later = answer.message
      continue
    }
    const fields = answer.kind === 'refused' ? answer.fields : {}
    await store.put({ ...item, refusal: { message: answer.message, fields } })
  }
  return { kept, later }
}

const firstWaitMs = 2000
const longestWaitMs = 60_000

/** How long to wait before the next round: doubled with each that failed, up to a minute. */
export function waitBeforeMs(failedRounds: number): number {
  return Math.min(firstWaitMs * 2 ** Math.min(failedRounds, 10), longestWaitMs)
}

/** What the shop's answer means for the queue. A status from 500 up, a sign-in run out and too many tries all pass. */
export function readAnswer(status: number, body: unknown): Answer {
  const answer = (typeof body === 'object' && body !== null ? body : {}) as {
    ok?: boolean
    value?: unknown
    message?: string
    fields?: Record<string, string>
  }
  if (status === 200 && answer.ok === true) return { kind: 'kept', value: answer.value }
  const message = answer.message ?? ''
  if (status === 401) return { kind: 'later', message: 'You are signed out: sign in, and they are sent.' }
  if (status >= 500 || status === 429 || status === 408 || message === '')
    return { kind: 'later', message: message || 'The shop’s computer does not answer.' }
  if (status === 404) return { kind: 'missing', message }
  return { kind: 'refused', message, fields: answer.fields ?? {} }
}

export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
