import { describe, expect, it } from 'vitest'
import {
  type Answer,
  addToQueue,
  type QueuedEntry,
  type QueueStore,
  readAnswer,
  sendQueue,
  waitBeforeMs,
} from '@/app/bench/queue'
import type { BenchTyped } from '@/lib/records/bend-record/schema'

function mapStore(): QueueStore & { items: Map<string, QueuedEntry> } {
  const items = new Map<string, QueuedEntry>()
  return {
    items,
    all: async () => [...items.values()],
    put: async (item) => void items.set(item.key, item),
    remove: async (key) => void items.delete(key),
  }
}

const at = '2026-03-02T10:00:00.000Z'
const start = (clientKey: string): BenchTyped => ({
  kind: 'start',
  clientKey,
  operationId: 1,
  pieceId: null,
  at,
})
const stop = (clientKey: string, startKey: string): BenchTyped => ({ kind: 'stop', clientKey, startKey, at })
const add = (store: QueueStore, entry: BenchTyped, userId = 1) =>
  addToQueue(store, { userId, madeAt: at, label: entry.kind, entry })
const kept: Answer = { kind: 'kept', value: null }

describe('the queue of a bench device', () => {
  it('sends in the order the entries were made, each once', async () => {
    const store = mapStore()
    for (const key of ['c', 'a', 'b']) await add(store, start(key))
    const sent: string[] = []
    const send = async (entry: BenchTyped) => {
      sent.push(entry.clientKey)
      return kept
    }
    await sendQueue(store, send, 1)
    await sendQueue(store, send, 1)
    expect(sent).toEqual(['c', 'a', 'b'])
    expect(store.items.size).toBe(0)
  })

  it('keeps what was not answered, lets nothing overtake it, and sends it again under the same key', async () => {
    const store = mapStore()
    await add(store, start('first'))
    await add(store, start('second'))
    const sent: string[] = []
    const round = (answer: Answer) =>
      sendQueue(
        store,
        async (entry) => {
          sent.push(entry.clientKey)
          return answer
        },
        1,
      )
    const { later } = await round({ kind: 'later', message: 'No connection' })
    expect(later).toBe('No connection')
    expect(store.items.size).toBe(2)
    await round(kept)
    expect(sent).toEqual(['first', 'first', 'second'])
  })

  it('keeps a refused entry with its reason, holds back what belongs to it, and sends the others', async () => {
    const store = mapStore()
    await add(store, start('refused'))
    await add(store, stop('its stop', 'refused'))
    await add(store, start('other'))
    const refusal = { message: 'The job is closed.', fields: {} }
    const send = async (entry: BenchTyped): Promise<Answer> =>
      entry.clientKey === 'refused' ? { kind: 'refused', ...refusal } : kept
    await sendQueue(store, send, 1)
    expect([...store.items.keys()]).toEqual(['refused', 'its stop'])
    expect(store.items.get('refused')?.refusal).toEqual(refusal)
  })

  it('puts a corrected entry in the refused one’s place', async () => {
    const store = mapStore()
    await add(store, start('one'))
    await add(store, stop('two', 'one'))
    await sendQueue(store, async () => ({ kind: 'refused', message: 'No', fields: {} }), 1)
    await add(store, start('one'))
    const sent: string[] = []
    await sendQueue(
      store,
      async ({ clientKey }) => {
        sent.push(clientKey)
        return kept
      },
      1,
    )
    expect(sent).toEqual(['one', 'two'])
  })

  it('sends again what came before the entry it belongs to, and lets the others pass meanwhile', async () => {
    const store = mapStore()
    await add(store, stop('early', 'not here yet'))
    await add(store, start('other'))
    const missing: Answer = { kind: 'missing', message: 'The start has not arrived yet.' }
    const send = async (entry: BenchTyped) => (entry.kind === 'stop' ? missing : kept)
    const { later } = await sendQueue(store, send, 1)
    expect(later).toBe('The start has not arrived yet.')
    expect([...store.items.values()]).toMatchObject([{ key: 'early', refusal: null }])
    await sendQueue(store, async () => kept, 1)
    expect(store.items.size).toBe(0)
  })

  it('refuses what names a piece that is not there: sending it again could not help', async () => {
    const store = mapStore()
    await add(store, start('lost'))
    await sendQueue(store, async () => ({ kind: 'missing', message: 'No such operation.' }), 1)
    expect(store.items.get('lost')?.refusal?.message).toBe('No such operation.')
  })

  it('never sends one person’s entry in another’s name', async () => {
    const store = mapStore()
    await add(store, start('theirs'), 2)
    await add(store, start('mine'), 1)
    await sendQueue(store, async () => kept, 1)
    expect([...store.items.keys()]).toEqual(['theirs'])
  })
})

describe('the shop’s answer', () => {
  it('is a refusal only where sending again could not help', () => {
    const said = { ok: false, message: 'No', fields: {} }
    expect([400, 403, 409, 413, 415, 422].map((status) => readAnswer(status, said).kind)).toEqual(
      Array(6).fill('refused'),
    )
    expect(readAnswer(404, said).kind).toBe('missing')
    expect([401, 408, 429, 500, 503, 507].map((status) => readAnswer(status, said).kind)).toEqual(
      Array(6).fill('later'),
    )
    // A sign-in page or a proxy's own words in place of an answer must not lose the entry.
    expect(readAnswer(200, null).kind).toBe('later')
    expect(readAnswer(200, { ok: true, value: 1 })).toEqual({ kind: 'kept', value: 1 })
  })

  it('is waited for longer after each round that failed, up to a minute', () => {
    expect([0, 1, 2, 20].map(waitBeforeMs)).toEqual([2000, 4000, 8000, 60_000])
  })
})
