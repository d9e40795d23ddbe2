'use client'

import { useRef, useState } from 'react'
import { Button, type ButtonKind } from '@/app/_ui/button'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { newSubmitKey } from './new-submit-key'

/** A button that runs one action at once and says beside it what came of that. */
export function PressAction<Input extends object>({
  label,
  pendingLabel,
  kind,
  input,
  action,
  name,
}: {
  label: string
  pendingLabel?: string
  kind?: ButtonKind
  input: Input
  action: (input: Input) => Promise<{ ok: true } | { ok: false; message: string }>
  /** Where several stand on a page: what this one is about, for those who hear the page. */
  name?: string
}) {
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const pressing = useRef(false)
  const submitKey = useRef<string | null>(null)
  const press = async () => {
    // Two presses may come before the screen shows the first.
    if (pressing.current) return
    pressing.current = true
    // Kept until there is an answer: pressed again after none came, it is the same press.
    submitKey.current ??= newSubmitKey()
    setStatus({ state: 'saving', message: pendingLabel })
    const outcome = await action({ ...input, submitKey: submitKey.current }).catch(() => null)
    pressing.current = false
    if (outcome !== null) submitKey.current = null
    if (outcome === null)
      setStatus({ state: 'not-sent', message: 'Not done: the shop’s computer did not answer.' })
    else setStatus(outcome.ok ? { state: 'idle' } : { state: 'refused', message: outcome.message })
  }
  return (
    <span className="row">
      <Button
        kind={kind}
        pending={status.state === 'saving'}
        onClick={() => void press()}
        aria-label={name ? `${label}: ${name}` : undefined}
      >
        {label}
      </Button>
      <FormStatus status={status} />
    </span>
  )
}
