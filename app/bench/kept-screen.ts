'use client'

import { usePathname, useSearchParams } from 'next/navigation'
import { useCallback, useEffect, useState, useSyncExternalStore } from 'react'

const pagesName = 'bendwright-bench-pages'

/** Throws away the bench screens kept on this device: whoever signs in next finds none of them. */
export async function forgetKeptScreens(): Promise<void> {
  if ('caches' in window) await caches.delete(pagesName)
}

/** When this page was kept, if it came from the device and not from the shop's computer. */
function keptAt(): string | null {
  return document.querySelector<HTMLMetaElement>('meta[name="bendwright-kept-at"]')?.content ?? null
}

/** The scripts, styles and fonts that this page was made of. */
function assetsOfPage(): string[] {
  return performance
    .getEntriesByType('resource')
    .map(({ name }) => name)
    .filter((name) => new URL(name).pathname.startsWith('/_next/static/'))
}

/**
 * The worker once it runs. `navigator.serviceWorker.ready` would wait for ever on a page that was loaded as the sign-in
 * and has led here since: it goes by the address that was loaded.
 */
function activeWorker({ active, waiting, installing }: ServiceWorkerRegistration): Promise<ServiceWorker> {
  if (active) return Promise.resolve(active)
  const coming = installing ?? waiting
  return new Promise((resolve, reject) => {
    if (!coming) reject(new Error('No worker comes.'))
    coming?.addEventListener('statechange', () => {
      if (coming.state === 'activated') resolve(coming)
      if (coming.state === 'redundant') reject(new Error('The worker did not install.'))
    })
  })
}

/** Asks the worker to keep this page as the shop answers it now; whether it did. Browsers give workers to https only. */
async function keepScreen(userId: number): Promise<boolean> {
  if (process.env.NODE_ENV !== 'production' || !('serviceWorker' in navigator)) return false
  const scope = { scope: '/bench', updateViaCache: 'none' } as const
  const worker = await activeWorker(await navigator.serviceWorker.register('/bench-worker.js', scope))
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel()
    port1.onmessage = (event: MessageEvent<{ kept: boolean }>) => resolve(event.data.kept)
    worker.postMessage({ userId, url: window.location.href, assets: assetsOfPage() }, [port2])
  })
}

const neverChanges = () => () => {}

/** Keeps every bench screen that is opened, so that it loads again without a connection. */
export function useKeptScreen(userId: number) {
  const address = `${usePathname()}?${useSearchParams().toString()}`
  const [keptAddress, setKeptAddress] = useState<string | null>(null)
  const copyOf = useSyncExternalStore(neverChanges, keptAt, () => null)
  const [renewed, setRenewed] = useState(false)
  const [loadedAddress] = useState(address)
  const keep = useCallback(
    () =>
      void keepScreen(userId).then(
        (kept) => kept && setKeptAddress(address),
        () => {},
      ),
    [userId, address],
  )
  useEffect(keep, [keep])
  return {
    /** Whether this screen loads again without a connection. */
    kept: keptAddress === address,
    /** Since when what is shown is a copy; null: it is the shop's own answer. */
    asOf: renewed || address !== loadedAddress ? null : copyOf,
    /** After the shop has answered anew: what is shown is no copy any more, and is to be kept as it is now. */
    renew: useCallback(() => {
      setRenewed(true)
      keep()
    }, [keep]),
  }
}
