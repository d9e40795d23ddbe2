'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import type { DefaultValues, FieldValues } from 'react-hook-form'
import type { z } from 'zod'
import { type Outcome, useRecordForm } from '@/app/_shop/use-record-form'

/** The form of a tool, to add one or, with `saved`, to change one. An added one leads back to the list. */
export function useToolForm<Typed extends FieldValues>(options: {
  schema: z.ZodType<unknown, Typed>
  start: DefaultValues<Typed>
  saved: { id: number; version: number } | undefined
  add: (typed: Typed) => Promise<Outcome<unknown>>
  change: (typed: Typed & { id: number; version: number }) => Promise<Outcome<{ version: number }>>
  listHref: string
}) {
  const { schema, start, saved, add, change, listHref } = options
  const router = useRouter()
  const [version, setVersion] = useState(saved?.version ?? 0)
  const action = async (typed: Typed): Promise<Outcome<unknown>> => {
    if (!saved) return add(typed)
    const outcome = await change({ ...typed, id: saved.id, version })
    if (outcome.ok) setVersion(outcome.value.version)
    else if (outcome.meanwhile) setVersion(outcome.meanwhile.value)
    return outcome
  }
  return useRecordForm<Typed, unknown>({
    schema,
    start,
    action,
    onSaved: saved ? undefined : () => router.push(listHref),
  })
}
