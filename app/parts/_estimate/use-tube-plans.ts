'use client'

import { useEffect, useState } from 'react'
import type { EstimateTyped } from '@/lib/records/estimate/schema'
import type { TubePlans } from './live-estimate'

const waitMs = 350

/** The cutting of what is typed, planned by the shop's computer whenever what decides it has changed and come to rest. */
export function useTubePlans(
  start: { key: string; plans: TubePlans },
  now: { key: string; typed: EstimateTyped },
): { plans: TubePlans | null; failed: boolean; retry: () => void } {
  const [planned, setPlanned] = useState(start)
  const [failedKey, setFailedKey] = useState<string | null>(null)
  const [tries, setTries] = useState(0)
  const body = JSON.stringify({
    ...now.typed,
    buyable: now.typed.buyable.filter(({ priceCents }) => priceCents.trim() !== ''),
    overrides: [],
    yieldReason: '',
    rateOverrides: now.typed.rateOverrides.map((one) => ({ ...one, reason: 'not said yet' })),
  })
  const isPlanned = planned.key === now.key
  useEffect(() => {
    if (isPlanned) return
    const stop = new AbortController()
    const timer = setTimeout(() => {
      void askForPlans(body, stop.signal).then((plans) => {
        if (stop.signal.aborted) return
        if (plans) setPlanned({ key: now.key, plans })
        setFailedKey(plans ? null : now.key)
      })
    }, waitMs)
    return () => {
      clearTimeout(timer)
      stop.abort()
    }
  }, [now.key, isPlanned, body, tries])
  return {
    plans: isPlanned ? planned.plans : null,
    failed: !isPlanned && failedKey === now.key,
    retry: () => setTries((count) => count + 1),
  }
}

async function askForPlans(body: string, signal: AbortSignal): Promise<TubePlans | null> {
  try {
    const answer = await fetch('/api/estimate', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body,
      signal,
    })
    if (!answer.ok) return null
    const { plans } = (await answer.json()) as { plans: TubePlans }
    return plans
  } catch {
    return null
  }
}
