'use client'

import type { ComponentProps } from 'react'
import { NumberField } from '@/app/_ui/field'
import { readLength } from '@/lib/core/typed/length'
import type { LengthUnit } from '@/lib/core/units'

/** A length typed the way people write it, said back as it was understood. `typed` is what stands in the field now. */
export function LengthField({
  lengthUnit,
  typed,
  gauge = false,
  ...rest
}: ComponentProps<typeof NumberField> & { lengthUnit: LengthUnit; typed: string; gauge?: boolean }) {
  const read = typed.trim() === '' ? null : readLength(typed, { defaultUnit: lengthUnit, gauge })
  return <NumberField unit={lengthUnit} understood={read?.ok ? read.echo : ''} {...rest} />
}
