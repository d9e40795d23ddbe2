import fs from 'node:fs'
import path from 'node:path'
import vm from 'node:vm'
import { beforeEach, describe, expect, it } from 'vitest'

const source = fs.readFileSync(path.resolve(import.meta.dirname, '../../public/bench-worker.js'), 'utf8')
const origin = 'https://shop.test'

/** The browser's store of answers, as far as the worker uses it. */
function memoryCaches() {
  const stores = new Map<string, Map<string, Response>>()
  const full = (url: string) => new URL(url, origin).href
  return {
    stores,
    addresses: () =>
      [...stores.entries()]
        .filter(([name]) => name !== 'bendwright-bench-person')
        .flatMap(([, store]) => [...store.keys()].map((url) => new URL(url).pathname)),
    open: async (name: string) => {
      const store = stores.get(name) ?? new Map<string, Response>()
      stores.set(name, store)
      return {
        match: async (url: string) => store.get(full(url))?.clone(),
        put: async (url: string, response: Response) => void store.set(full(url), response),
        delete: async (url: string) => store.delete(full(url)),
        keys: async () => [...store.keys()],
      }
    },
    delete: async (name: string) => stores.delete(name),
  }
}

type Answer = (url: string) => Response | Error
const html = (text: string) =>
  new Response(`<html><head></head><body>${text}</body></html>`, { headers: { 'content-type': 'text/html' } })
const redirected = (response: Response) => Object.defineProperty(response, 'redirected', { value: true })

/** The worker as it runs in a browser, before a shop that answers as it is told to. */
function startWorker() {
  const caches = memoryCaches()
  const listeners = new Map<string, (event: unknown) => void>()
  const shop: { answer: Answer } = { answer: (url) => html(`page ${new URL(url).pathname}`) }
  const fetched = async (asked: string | { url: string }) => {
    const answer = shop.answer(typeof asked === 'string' ? new URL(asked, origin).href : asked.url)
    if (answer instanceof Error) throw answer
    return answer
  }
  const self = {
    location: { origin },
    addEventListener: (name: string, run: (event: unknown) => void) => listeners.set(name, run),
  }
  vm.runInNewContext(source, { self, caches, fetch: fetched, URL, Response, Headers })
  const waits: Promise<unknown>[] = []
  const waitUntil = (promise: Promise<unknown>) => void waits.push(promise)
  const load = async (address: string, mode = 'navigate', method = 'GET') => {
    let answer: Promise<Response> | null = null
    const respondWith = (promise: Promise<Response>) => {
      answer = promise
    }
    const request = { url: `${origin}${address}`, mode, method }
    listeners.get('fetch')?.({ request, respondWith, waitUntil })
    const response = answer === null ? null : await (answer as Promise<Response>)
    await Promise.all(waits)
    return response
  }
  const keep = async (userId: number, address: string, assets: string[] = []) => {
    const told: unknown[] = []
    const ports = [{ postMessage: (message: unknown) => told.push(message) }]
    listeners.get('message')?.({ data: { userId, url: `${origin}${address}`, assets }, ports, waitUntil })
    await Promise.all(waits)
    return told
  }
  return { caches, shop, load, keep }
}

const offline: Answer = () => new TypeError('Failed to fetch')
let worker: ReturnType<typeof startWorker>
beforeEach(() => {
  worker = startWorker()
})

describe('The worker of the bench', () => {
  it('asks the shop first, and shows the copy with its time when the shop does not answer', async () => {
    expect(await worker.keep(1, '/bench/one')).toEqual([{ kept: true }])
    worker.shop.answer = () => html('newer')
    expect(await (await worker.load('/bench/one'))?.text()).toContain('newer')
    worker.shop.answer = offline
    const copy = await (await worker.load('/bench/one'))?.text()
    expect(copy).toContain('newer')
    expect(copy).toMatch(/<meta name="bendwright-kept-at" content="\d{4}-\d\d-\d\dT[\d:.]+Z">/)
    const none = await worker.load('/bench/two')
    expect([none?.status, await none?.text()]).toEqual([503, expect.stringContaining('No connection')])
  })

  it('leaves everything else alone: answers of the shop’s addresses, other screens, files, what is posted', async () => {
    for (const address of [
      '/api/bench',
      '/api/spec',
      '/jobs/1',
      '/files/3',
      '/benches',
      '/bench-worker.js',
    ]) {
      expect([address, await worker.load(address)]).toEqual([address, null])
    }
    expect(await worker.load('/bench/one', 'cors')).toBeNull()
    expect(await worker.load('/bench/one', 'navigate', 'POST')).toBeNull()
    await worker.keep(1, '/jobs/1')
    await worker.keep(1, '/bench/one', [
      `${origin}/api/spec`,
      `${origin}/files/3`,
      'https://elsewhere.test/_next/static/a.js',
    ])
    expect(worker.caches.addresses()).toEqual(['/bench/one'])
  })

  it('throws away one person’s screens before it keeps another’s', async () => {
    await worker.keep(1, '/bench/one')
    await worker.keep(1, '/bench/two')
    await worker.keep(2, '/bench/three')
    expect(worker.caches.addresses()).toEqual(['/bench/three'])
    worker.shop.answer = offline
    expect((await worker.load('/bench/one'))?.status).toBe(503)
  })

  it('throws them away when the shop leads to the sign-in, and keeps no sign-in', async () => {
    await worker.keep(1, '/bench/one')
    worker.shop.answer = () => redirected(html('Sign in'))
    expect(await worker.keep(1, '/bench/two')).toEqual([{ kept: false }])
    expect(worker.caches.addresses()).toEqual([])
  })

  it('keeps no page that broke or is not there, and the copy that was there before', async () => {
    await worker.keep(1, '/bench/one')
    for (const status of [404, 500, 503]) {
      worker.shop.answer = () => new Response('<html>', { status, headers: { 'content-type': 'text/html' } })
      await worker.load('/bench/one')
      await worker.load('/bench/gone')
    }
    worker.shop.answer = offline
    expect(await (await worker.load('/bench/one'))?.text()).toContain('page /bench/one')
    expect((await worker.load('/bench/gone'))?.status).toBe(503)
  })

  it('keeps sixty screens at most, and lets the oldest go', async () => {
    for (let count = 1; count <= 70; count++) await worker.keep(1, `/bench/piece-${count}`)
    const kept = worker.caches.addresses()
    expect(kept).toHaveLength(60)
    expect(kept).toContain('/bench/piece-70')
    expect(kept).not.toContain('/bench/piece-2')
  })
})
