'use client'

import { zodResolver } from '@hookform/resolvers/zod'
import { useEffect, useState } from 'react'
import { type DefaultValues, type FieldValues, type Path, type PathValue, useForm } from 'react-hook-form'
import type { z } from 'zod'
import type { FormState } from '@/app/_ui/form-status'
import { formatDateTime } from '@/lib/core/format'
import { staleDifferences } from '@/lib/records/audit/rules'
import { filled } from './filled'
import { messageAt } from './message-at'
import { newSubmitKey } from './new-submit-key'

const lookAtFields = 'Look at the marked fields.'

export type Outcome<Value> =
  | { ok: true; value: Value }
  | { ok: false; message: string; fields: Record<string, string>; meanwhile?: Meanwhile | undefined }

/** What somebody else saved meanwhile, and the version from which the next save counts. */
type Meanwhile = {
  field: 'version' | 'baseId'
  value: number
  saves: { by: string; at: string; before: unknown; after: unknown }[]
  units: { lengthUnit: 'in' | 'mm'; currency: string }
}

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
  const [submitKey, setSubmitKey] = useState(newSubmitKey)
  const { errors, isDirty, isSubmitting } = form.formState

  useEffect(() => {
    if (!isDirty) return
    const ask = (event: BeforeUnloadEvent) => event.preventDefault()
    window.addEventListener('beforeunload', ask)
    return () => window.removeEventListener('beforeunload', ask)
  }, [isDirty])

  const send = async (typed: Typed) => {
    setStatus({ state: 'saving' })
    const outcome = await action({ ...typed, submitKey }).catch(() => null)
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
      if (outcome.meanwhile) {
        const { field: version, value, saves, units } = outcome.meanwhile
        form.setValue(version as Path<Typed>, value as PathValue<Typed, Path<Typed>>)
        const changes = staleDifferences(saves, typed, units)
        setStatus({ state: 'refused', message: staleMessage(saves), changes })
        return
      }
      const isAtFields = Object.keys(outcome.fields).length > 0
      setStatus({ state: 'refused', message: isAtFields ? lookAtFields : outcome.message })
      return
    }
    setSubmitKey(newSubmitKey())
    form.reset(emptyAfter ? start : { ...typed, ...versionOf(outcome.value) })
    setStatus({ state: 'saved' })
    onSaved?.(outcome.value)
  }

  const submit = form.handleSubmit(send, () => setStatus({ state: 'refused', message: lookAtFields }))
  /** What a field of app/_ui takes. */
  const field = (name: Path<Typed>) => {
    return { ...filled(form, name), error: messageAt(errors, name) }
  }
  return { form, field, submit, status, saving: isSubmitting }
}

function staleMessage(saves: Meanwhile['saves']): string {
  const who = [...new Set(saves.map(({ by }) => by))].join(' and ') || 'Somebody else'
  const at = saves.at(-1)?.at
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions()
  const when = at ? ` (${formatDateTime(at, { locale: 'en-US', timeZone })})` : ''
  return `${who} saved this while you were working on it${when}. What you typed is still here: save again to put it in place of theirs.`
}

function versionOf(value: unknown): { version?: number } {
  if (typeof value !== 'object' || value === null || !('version' in value)) return {}
  return typeof value.version === 'number' ? { version: value.version } : {}
}
