'use client'

import { useEffect, useState } from 'react'
import { Button } from '@/app/_ui/button'
import { SelectField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { useBench } from '../bench-queue'
import { newKey } from '../queue'
import { type Keep, RefusedStart, RunningClock } from './running-clock'

type Operation = { id: number; name: string; running: { key: string; startedAt: string } | null }

const otherJob = 'An operation of another job'

/** Starts and stops the clock on an operation. What runs is known by the shop or by this device's queue, so a reload loses nothing. */
export function Clock({ operations, pieceId }: { operations: readonly Operation[]; pieceId: number }) {
  const { items, userId, add } = useBench()
  const [operationId, setOperationId] = useState(String(operations[0]?.id ?? ''))
  const [scope, setScope] = useState<'piece' | 'job'>('piece')
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const [nowMs, setNowMs] = useState<number | null>(null)
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), 1000)
    return () => clearInterval(timer)
  }, [])
  const nameOf = (id: unknown) => operations.find((one) => one.id === Number(id))?.name ?? otherJob
  const own = items.filter((item) => item.userId === userId)
  const known = operations.flatMap(({ name, running }) => (running ? [{ name, ...running }] : []))
  const started = own.flatMap(({ entry, refusal }) =>
    entry.kind === 'start' && !refusal && !known.some(({ key }) => key === entry.clientKey)
      ? [{ key: entry.clientKey, startedAt: entry.at, name: nameOf(entry.operationId) }]
      : [],
  )
  const stops = own.flatMap(({ entry, refusal }) => (entry.kind === 'stop' ? [{ entry, refusal }] : []))
  const stopped = new Set(stops.flatMap(({ entry, refusal }) => (refusal ? [] : [entry.startKey])))
  const running = [...known, ...started].filter(({ key }) => !stopped.has(key))
  const keep: Keep = async (entry, label) => {
    try {
      await add(entry, label)
      setStatus({ state: 'idle' })
    } catch {
      setStatus({
        state: 'refused',
        message: 'This browser keeps nothing on the device. Write the time down.',
      })
    }
  }
  const start = () => {
    const at = new Date().toISOString()
    const ofPiece = scope === 'piece' ? pieceId : null
    const entry = { kind: 'start', clientKey: newKey(), operationId, pieceId: ofPiece, at } as const
    return keep(entry, `start of ${nameOf(operationId)}`)
  }
  return (
    <div className="stack">
      {running.map(({ key, name, startedAt }) => {
        const refused = stops.find(({ entry, refusal }) => refusal && entry.startKey === key)?.entry
        return (
          <RunningClock
            key={`${key} ${refused?.clientKey ?? ''}`}
            clockKey={key}
            name={name}
            startedAt={startedAt}
            nowMs={nowMs}
            refused={refused ?? null}
            keep={keep}
          />
        )
      })}
      {own.map(({ key, entry, refusal, label }) =>
        entry.kind === 'start' && refusal ? (
          <RefusedStart key={key} entry={entry} name={nameOf(entry.operationId)} label={label} keep={keep} />
        ) : null,
      )}
      {operations.length > 0 && (
        <>
          <SelectField
            label="Operation"
            choices={operations.map(({ id, name }) => ({ value: String(id), label: name }))}
            value={operationId}
            onChange={(event) => setOperationId(event.target.value)}
          />
          <SelectField
            label="For"
            choices={[
              { value: 'piece', label: 'This piece' },
              { value: 'job', label: 'The whole job' },
            ]}
            value={scope}
            onChange={(event) => setScope(event.target.value === 'job' ? 'job' : 'piece')}
          />
          <Button big wide onClick={() => void start()}>
            Start the clock
          </Button>
        </>
      )}
      <FormStatus status={status} />
    </div>
  )
}
