'use client'

import { useDeferredValue } from 'react'
import { useFormContext, useWatch } from 'react-hook-form'
import { Part3d } from '@/app/_drawing/part-3d'
import { PartDrawing } from '@/app/_drawing/part-drawing'
import { drawablePart } from '@/lib/core/drawing/part'
import type { LengthUnit } from '@/lib/core/units'
import type { PartTyped } from '@/lib/records/part/schema'
import { typedDrawing } from './typed-drawing'

const drawnFields = [
  'shape',
  'widthMm',
  'heightMm',
  'wallMm',
  'cornerRadiusMm',
  'bends',
  'straightAfterMm',
  'startCut',
  'endCut',
] as const

/** The part as typed so far. It follows the typing without holding it up. */
export function LiveDrawing({
  lengthUnit,
  selectedBend,
  onSelectBend,
}: {
  lengthUnit: LengthUnit
  selectedBend: number | null
  onSelectBend: (bend: number) => void
}) {
  const { control } = useFormContext<PartTyped>()
  const [shape, widthMm, heightMm, wallMm, cornerRadiusMm, bends, straightAfterMm, startCut, endCut] =
    useDeferredValue(useWatch({ control, name: drawnFields }))
  const part = typedDrawing(
    { shape, widthMm, heightMm, wallMm, cornerRadiusMm, bends, straightAfterMm, startCut, endCut },
    lengthUnit,
  )
  return (
    <div className="stack">
      <PartDrawing part={part} units={lengthUnit} selectedBend={selectedBend} onSelectBend={onSelectBend} />
      {drawablePart(part).part && <Part3d part={part} units={lengthUnit} selectedBend={selectedBend} />}
    </div>
  )
}
