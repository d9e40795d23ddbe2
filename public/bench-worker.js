/*
 * Lets the bench screens of this device load again without a connection: the shop's computer first, the copy kept
 * here when it does not answer. Kept are the pages of /bench, for the person signed in, and the app's own scripts and
 * styles; never an answer of /api, a file, or any other screen. A copy says since when it is one.
 */
const pagesName = 'bendwright-bench-pages'
const assetsName = 'bendwright-bench-assets'
const personName = 'bendwright-bench-person'
const mostPages = 60
const mostAssets = 400
const whoKey = '/bench/kept-for'

self.addEventListener('install', () => self.skipWaiting())
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()))

const isBenchPage = ({ origin, pathname }) =>
  origin === self.location.origin && (pathname === '/bench' || pathname.startsWith('/bench/'))
const isAsset = ({ origin, pathname }) =>
  origin === self.location.origin && pathname.startsWith('/_next/static/')

/** The oldest go when there are too many: keys() is in the order they were put in. */
async function trim(cache, most) {
  const keys = await cache.keys()
  await Promise.all(keys.slice(0, Math.max(0, keys.length - most)).map((key) => cache.delete(key)))
}

/** Keeps a page that the shop answered with itself. One that led elsewhere means that nobody is signed in any more. */
async function keepPage(url, response) {
  if (response.redirected || response.status === 401 || response.status === 403) {
    await caches.delete(pagesName)
    return false
  }
  if (response.status !== 200 || !(response.headers.get('content-type') ?? '').startsWith('text/html')) return false
  const headers = new Headers(response.headers)
  // What is kept is unpacked already.
  headers.delete('content-encoding')
  headers.delete('content-length')
  headers.set('x-kept-at', new Date().toISOString())
  const cache = await caches.open(pagesName)
  await cache.delete(url)
  await cache.put(url, new Response(await response.blob(), { headers }))
  await trim(cache, mostPages)
  return true
}

async function keepAssets(urls) {
  const cache = await caches.open(assetsName)
  for (const url of urls) {
    if (!isAsset(new URL(url, self.location.origin)) || (await cache.match(url))) continue
    const response = await fetch(url)
    if (response.ok) await cache.put(url, response)
  }
  await trim(cache, mostAssets)
}

/** Whose pages are kept. Another person's are thrown away before the first of the new one's is kept. */
async function keptFor(userId) {
  const person = await caches.open(personName)
  const before = await person.match(whoKey)
  if (before && (await before.text()) === String(userId)) return
  await caches.delete(pagesName)
  await person.put(whoKey, new Response(String(userId)))
}

const noCopy = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>No connection</title>
<meta name="viewport" content="width=device-width, initial-scale=1"></head><body><main><h1>No connection</h1>
<p>The shop’s computer does not answer, and this device has kept no copy of this screen.</p>
<p>Entries that wait on this device are still there: they are sent when a bench screen is open with a connection.</p>
<p><a href="/bench">The list of pieces, if it was kept</a></p></main></body></html>`

async function keptPage(request) {
  const cached = await (await caches.open(pagesName)).match(request.url)
  if (!cached) {
    const headers = { 'content-type': 'text/html; charset=utf-8', 'content-security-policy': "default-src 'none'" }
    return new Response(noCopy, { status: 503, headers })
  }
  const at = cached.headers.get('x-kept-at') ?? ''
  const text = await cached.text()
  const marked = text.replace('<head>', `<head><meta name="bendwright-kept-at" content="${at}">`)
  return new Response(marked, { headers: cached.headers })
}

async function loadPage(event) {
  let response
  try {
    response = await fetch(event.request)
  } catch {
    return keptPage(event.request)
  }
  // A navigation's redirect reaches the worker unfollowed; the browser follows it, and nothing of it is kept.
  if (response.type !== 'opaqueredirect') event.waitUntil(keepPage(event.request.url, response.clone()))
  else event.waitUntil(caches.delete(pagesName))
  return response
}

async function loadAsset(request) {
  const cached = await (await caches.open(assetsName)).match(request.url)
  if (cached) return cached
  const response = await fetch(request)
  if (response.ok) {
    const cache = await caches.open(assetsName)
    await cache.put(request.url, response.clone())
  }
  return response
}

self.addEventListener('fetch', (event) => {
  const { request } = event
  if (request.method !== 'GET') return
  const url = new URL(request.url)
  if (isAsset(url)) event.respondWith(loadAsset(request))
  else if (request.mode === 'navigate' && isBenchPage(url)) event.respondWith(loadPage(event))
})

/** A page tells who is signed in and what it was made of: it was loaded before this worker ran, or without a navigation. */
self.addEventListener('message', (event) => {
  const { userId, url, assets } = event.data ?? {}
  if (typeof url !== 'string' || !isBenchPage(new URL(url)) || !Array.isArray(assets)) return
  const keep = async () => {
    await keptFor(userId)
    const kept = await keepPage(url, await fetch(url, { headers: { accept: 'text/html' } }))
    await keepAssets(assets)
    event.ports[0]?.postMessage({ kept })
  }
  event.waitUntil(keep().catch(() => event.ports[0]?.postMessage({ kept: false })))
})
