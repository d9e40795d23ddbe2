'use client'

import type { ReactNode } from 'react'
import { type FieldPath, useFormContext, useFormState, useWatch } from 'react-hook-form'
import { filled } from '@/app/_shop/filled'
import { LengthField } from '@/app/_shop/length-field'
import { messageAt } from '@/app/_shop/message-at'
import { NumberField } from '@/app/_ui/field'
import { readAngle } from '@/lib/core/typed/angle'
import type { LengthUnit } from '@/lib/core/units'
import type { PartTyped } from '@/lib/records/part/schema'

type Name = FieldPath<PartTyped>
type Look = { name: Name; label: string; hint?: ReactNode; optional?: boolean }

/** One field of the part's form by itself: a key pressed here draws nothing else anew. */
function useTypedField(name: Name) {
  const form = useFormContext<PartTyped>()
  const { control } = form
  const watched = useWatch({ control, name })
  const typed = typeof watched === 'string' ? watched : ''
  const { errors } = useFormState({ control, name })
  return { typed, field: { ...filled(form, name), error: messageAt(errors, name) } }
}

export function TypedLength({
  name,
  lengthUnit,
  gauge,
  ...look
}: Look & { lengthUnit: LengthUnit; gauge?: boolean }) {
  const { typed, field } = useTypedField(name)
  return <LengthField lengthUnit={lengthUnit} typed={typed} gauge={gauge} {...look} {...field} />
}

export function TypedAngle({ name, ...look }: Look) {
  const { typed, field } = useTypedField(name)
  const read = typed.trim() === '' ? null : readAngle(typed)
  return <NumberField unit="°" understood={read?.ok ? read.echo : ''} {...look} {...field} />
}

export function TypedNumber({ name, unit, ...look }: Look & { unit?: string }) {
  const { field } = useTypedField(name)
  return <NumberField inputMode="decimal" unit={unit} {...look} {...field} />
}
