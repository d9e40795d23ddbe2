'use client'

import { zodResolver } from '@hookform/resolvers/zod'
import { useEffect, useState } from 'react'
import { type DefaultValues, type FieldValues, type Path, useForm } from 'react-hook-form'
import type { z } from 'zod'
import type { FormState } from '@/app/_ui/form-status'
import { messageAt } from './message-at'

const lookAtFields = 'Look at the marked fields.'

export type Outcome<Value> =
  | { ok: true; value: Value }
  | { ok: false; message: string; fields: Record<string, string> }

/**
 * A form of one record: strings in, strings posted, refusals put at their fields, and nothing typed lost. A save that
 * answers with the record's new version goes on from that version.
 */
export function useRecordForm<Typed extends FieldValues, Value>(options: {
  schema: z.ZodType<unknown, Typed>
  start: DefaultValues<Typed>
  action: (typed: Typed) => Promise<Outcome<Value>>
  onSaved?: (value: Value) => void
  /** Back to the beginnings after a save: for a form that adds one after another. */
  emptyAfter?: boolean
}) {
  const { schema, start, action, onSaved, emptyAfter = false } = options
  const form = useForm<Typed>({
    resolver: zodResolver(schema, undefined, { raw: true }),
    defaultValues: start,
  })
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const { errors, isDirty, isSubmitting } = form.formState

  useEffect(() => {
    if (!isDirty) return
    const ask = (event: BeforeUnloadEvent) => event.preventDefault()
    window.addEventListener('beforeunload', ask)
    return () => window.removeEventListener('beforeunload', ask)
  }, [isDirty])

  const send = async (typed: Typed) => {
    setStatus({ state: 'saving' })
    const outcome = await action(typed).catch(() => null)
    if (outcome === null) {
      setStatus({
        state: 'not-sent',
        message: 'Not saved: the shop’s computer did not answer. Nothing typed is lost; try again.',
      })
      return
    }
    if (!outcome.ok) {
      for (const [path, message] of Object.entries(outcome.fields))
        form.setError(path as Path<Typed>, { message })
      const isAtFields = Object.keys(outcome.fields).length > 0
      setStatus({ state: 'refused', message: isAtFields ? lookAtFields : outcome.message })
      return
    }
    form.reset(emptyAfter ? start : { ...typed, ...versionOf(outcome.value) })
    setStatus({ state: 'saved' })
    onSaved?.(outcome.value)
  }

  const submit = form.handleSubmit(send, () => setStatus({ state: 'refused', message: lookAtFields }))
  /** What a field of app/_ui takes. */
  const field = (name: Path<Typed>) => {
    return { ...form.register(name), error: messageAt(errors, name) }
  }
  return { form, field, submit, status, saving: isSubmitting }
}

function versionOf(value: unknown): { version?: number } {
  if (typeof value !== 'object' || value === null || !('version' in value)) return {}
  return typeof value.version === 'number' ? { version: value.version } : {}
}
