'use client'

import { useRouter } from 'next/navigation'
import {
  createContext,
  type ReactNode,
  startTransition,
  useCallback,
  useContext,
  useEffect,
  useRef,
  useState,
} from 'react'
import { UndoToast } from '@/app/_ui/undo-toast'
import type { BenchTyped } from '@/lib/records/bend-record/schema'
import { useKeptScreen } from './kept-screen'
import { type Answer, addToQueue, type QueuedEntry, readAnswer, sendQueue, waitBeforeMs } from './queue'
import { deviceStore } from './queue-store'
import { WaitingBar } from './waiting-bar'

type Bench = {
  /** All that this device holds, others' entries too. */
  items: readonly QueuedEntry[]
  userId: number
  /** Keeps the entry on the device, then sends what waits. Throws where the device keeps nothing. */
  add: (entry: BenchTyped, label: string) => Promise<void>
}

const Context = createContext<Bench | null>(null)

export function useBench(): Bench {
  const bench = useContext(Context)
  if (!bench) throw new Error('The bench’s queue is missing around this part of the screen.')
  return bench
}

const answerWithinMs = 30_000
const answeredName = 'bendwright-bench-answered'

/**
 * Whether the shop answered this tab after this page was asked for. The page that was open before then took the entry
 * off the device, while this one was made without it: a clock that is stopped would seem to run.
 */
function madeBeforeLastAnswer(): boolean {
  const askedForAtMs = Date.now() - performance.now()
  return Number(sessionStorage.getItem(answeredName) ?? 0) > askedForAtMs
}

async function send(entry: BenchTyped): Promise<Answer> {
  try {
    const response = await fetch('/api/bench', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(entry),
      signal: AbortSignal.timeout(answerWithinMs),
    })
    const answer = readAnswer(response.status, await response.json().catch(() => null))
    // Before the entry leaves the device: this page may be on its way out.
    if (answer.kind === 'kept') sessionStorage.setItem(answeredName, String(Date.now()))
    return answer
  } catch {
    return { kind: 'later', message: 'No connection to the shop’s computer.' }
  }
}

/** One round at a time over all open tabs of this device. */
function oneAtATime<Value>(run: () => Promise<Value>): Promise<Value> {
  return navigator.locks ? navigator.locks.request('bendwright-bench', run) : run()
}

/** The queue of this device: keeps, sends, and shows what waits. */
export function BenchQueue({ userId, children }: { userId: number; children: ReactNode }) {
  const router = useRouter()
  const [items, setItems] = useState<readonly QueuedEntry[]>([])
  const [dropped, setDropped] = useState<QueuedEntry | null>(null)
  const [trouble, setTrouble] = useState<string | null>(null)
  const { kept: screenKept, asOf, renew } = useKeptScreen(userId)
  const failedRounds = useRef(0)
  const renewScreen = useRef(renew)
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  const roundAgain = useRef<() => void>(() => {})

  const round = useCallback(async () => {
    clearTimeout(timer.current)
    const { kept, later } = await oneAtATime(() => sendQueue(deviceStore, send, userId))
    const left = (await deviceStore.all()).sort((a, b) => a.order - b.order)
    setTrouble(later)
    // Only after the shop has answered: a refresh without a connection would throw the open page away. What was
    // kept leaves the queue together with the refreshed page, so that a clock never seems to stop in between.
    startTransition(() => {
      if (kept.length > 0) router.refresh()
      setItems(left)
    })
    if (kept.length > 0) renewScreen.current()
    failedRounds.current = later === null ? 0 : failedRounds.current + 1
    if (later !== null)
      timer.current = setTimeout(() => roundAgain.current(), waitBeforeMs(failedRounds.current))
  }, [router, userId])

  useEffect(() => {
    renewScreen.current = renew
  }, [renew])
  useEffect(() => {
    const fail = () => setTrouble('This browser keeps nothing on the device.')
    const again = () => void round().catch(fail)
    roundAgain.current = again
    const first = async () => {
      const stale = madeBeforeLastAnswer()
      await round()
      if (stale) startTransition(() => router.refresh())
    }
    first().catch(fail)
    window.addEventListener('online', again)
    return () => {
      window.removeEventListener('online', again)
      clearTimeout(timer.current)
    }
  }, [round, router])

  const add = async (entry: BenchTyped, label: string) => {
    await addToQueue(deviceStore, { userId, madeAt: new Date().toISOString(), label, entry })
    setItems((await deviceStore.all()).sort((a, b) => a.order - b.order))
    await round()
  }
  const drop = async (item: QueuedEntry) => {
    await deviceStore.remove(item.key)
    setDropped(item)
    setItems((await deviceStore.all()).sort((a, b) => a.order - b.order))
  }
  const takeBack = async (item: QueuedEntry): Promise<string | undefined> => {
    try {
      await deviceStore.put(item)
      setItems((await deviceStore.all()).sort((a, b) => a.order - b.order))
      return undefined
    } catch {
      return 'This browser keeps nothing on the device. Note it on the traveller.'
    }
  }
  return (
    <Context value={{ items, userId, add }}>
      <WaitingBar
        items={items}
        userId={userId}
        trouble={trouble}
        screenKept={screenKept}
        asOf={asOf}
        onSend={() => void round()}
        onDrop={(item) => void drop(item)}
      />
      <div className="bench">{children}</div>
      {dropped && (
        <UndoToast
          key={dropped.key}
          message={`Dropped: ${dropped.label}`}
          onUndo={() => takeBack(dropped)}
          onDismiss={() => setDropped(null)}
        />
      )}
    </Context>
  )
}
