'use client'

import { useState } from 'react'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { useBench } from '../bench-queue'
import { newKey } from '../queue'
import { Photo } from './photo'

/** Opens a fault with the piece where it is seen; like any entry it waits on the device and is corrected when it is refused. */
export function FaultForm({ scanCode, label }: { scanCode: string; label: string }) {
  const { items, userId } = useBench()
  const refused = items.find(
    ({ entry, refusal, userId: by }) =>
      refusal !== null && by === userId && entry.kind === 'fault' && entry.scanCode === scanCode,
  )
  const before = refused?.entry.kind === 'fault' ? refused.entry.description : ''
  return (
    <Entry
      key={refused?.key ?? 'new'}
      scanCode={scanCode}
      label={label}
      refusedKey={refused?.key ?? null}
      before={before}
      error={refused?.refusal?.fields.description ?? refused?.refusal?.message}
    />
  )
}

function Entry({
  scanCode,
  label,
  refusedKey,
  before,
  error,
}: {
  scanCode: string
  label: string
  refusedKey: string | null
  before: string
  error: string | undefined
}) {
  const { add } = useBench()
  const [description, setDescription] = useState(before)
  const [openedKey, setOpenedKey] = useState<string | null>(null)
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const open = async () => {
    setStatus({ state: 'saving' })
    try {
      const clientKey = refusedKey ?? newKey()
      await add({ kind: 'fault', clientKey, scanCode, description }, label)
      setOpenedKey(clientKey)
      setDescription('')
      setStatus({ state: 'saved', message: 'Noted: set the piece aside' })
    } catch {
      setStatus({ state: 'refused', message: 'This browser keeps nothing on the device. Tell the office.' })
    }
  }
  return (
    <details open={refusedKey !== null}>
      <summary className="check">Something else is wrong with this piece</summary>
      <div className="stack stack-tight">
        <TextField
          label="What is wrong"
          value={description}
          error={error}
          onChange={(event) => setDescription(event.target.value)}
        />
        <Button kind="stop" big wide pending={status.state === 'saving'} onClick={() => void open()}>
          Open a fault
        </Button>
        <FormStatus status={status} />
        {openedKey && (
          <Photo
            key={openedKey}
            recordKey={openedKey}
            label={`picture for the ${label}`}
            title="Photograph what is wrong"
          />
        )}
      </div>
    </details>
  )
}
