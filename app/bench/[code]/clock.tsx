'use client'

import { useEffect, useState } from 'react'
import { Button } from '@/app/_ui/button'
import { SelectField, TextField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { useBench } from '../bench-queue'
import { newKey } from '../queue'

type Operation = { id: number; name: string; running: { key: string; startedAt: string } | null }

function elapsedText(sinceMs: number, nowMs: number): string {
  const seconds = Math.max(0, Math.floor((nowMs - sinceMs) / 1000))
  const two = (count: number) => String(count).padStart(2, '0')
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`
}

/** Starts and stops the clock on an operation. What runs is known by the shop or by this device's queue, so a reload loses nothing. */
export function Clock({ operations, pieceId }: { operations: readonly Operation[]; pieceId: number }) {
  const { items, add } = useBench()
  const [operationId, setOperationId] = useState(String(operations[0]?.id ?? ''))
  const [scope, setScope] = useState<'piece' | 'job'>('piece')
  const [stoppedAt, setStoppedAt] = useState('')
  const [reason, setReason] = useState('')
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const [nowMs, setNowMs] = useState<number | null>(null)
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), 1000)
    return () => clearInterval(timer)
  }, [])
  const live = items.flatMap(({ entry, refusal }) => (refusal ? [] : [entry]))
  const stopped = new Set(live.flatMap((entry) => (entry.kind === 'stop' ? [entry.startKey] : [])))
  const known = operations.flatMap(({ name, running }) => (running ? [{ name, ...running }] : []))
  const keys = new Set(known.map(({ key }) => key))
  const started = live.flatMap((entry) =>
    entry.kind === 'start' && !keys.has(entry.clientKey)
      ? [
          {
            key: entry.clientKey,
            startedAt: entry.at,
            name:
              operations.find(({ id }) => id === Number(entry.operationId))?.name ??
              'An operation of another job',
          },
        ]
      : [],
  )
  const running = [...known, ...started].filter(({ key }) => !stopped.has(key))
  const keep = async (entry: Parameters<typeof add>[0], label: string) => {
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
    const name = operations.find(({ id }) => String(id) === operationId)?.name ?? ''
    const at = new Date().toISOString()
    const ofPiece = scope === 'piece' ? pieceId : null
    return keep({ kind: 'start', clientKey: newKey(), operationId, pieceId: ofPiece, at }, `start of ${name}`)
  }
  const stop = (key: string, name: string) => {
    const at = stoppedAt === '' ? new Date() : new Date(stoppedAt)
    if (Number.isNaN(at.getTime()) || (stoppedAt !== '' && reason.trim() === '')) {
      setStatus({ state: 'refused', message: 'Say when it stopped, and why it is corrected.' })
      return
    }
    const entry = { kind: 'stop', clientKey: newKey(), startKey: key, at: at.toISOString() } as const
    void keep({ ...entry, reasonText: stoppedAt === '' ? '' : reason }, `stop of ${name}`)
    setStoppedAt('')
    setReason('')
  }
  return (
    <div className="stack">
      {running.map(({ key, name, startedAt }) => (
        <div className="stack stack-tight" key={key}>
          <div>
            {name}, running:{' '}
            <span className="bench-time">
              {nowMs === null ? '' : elapsedText(new Date(startedAt).getTime(), nowMs)}
            </span>
          </div>
          <Button big wide onClick={() => stop(key, name)}>
            Stop: {name}
          </Button>
          <details>
            <summary className="check">It stopped earlier, I forgot</summary>
            <div className="fields">
              <TextField
                label="Stopped at"
                type="datetime-local"
                value={stoppedAt}
                onChange={(event) => setStoppedAt(event.target.value)}
              />
              <TextField label="Why" value={reason} onChange={(event) => setReason(event.target.value)} />
            </div>
          </details>
        </div>
      ))}
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
