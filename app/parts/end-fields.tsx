'use client'

import { useFormContext, useWatch } from 'react-hook-form'
import { filled } from '@/app/_shop/filled'
import { FieldGroup, SelectField } from '@/app/_ui/field'
import { Section } from '@/app/_ui/section'
import type { LengthUnit } from '@/lib/core/units'
import type { PartTyped } from '@/lib/records/part/schema'
import { TypedAngle, TypedLength } from './typed-fields'

const cutChoices = [
  { value: 'square', label: 'Square' },
  { value: 'mitre', label: 'Mitred' },
  { value: 'saddle', label: 'Saddle on another tube' },
]

function CutFields({
  end,
  legend,
  lengthUnit,
}: {
  end: 'startCut' | 'endCut'
  legend: string
  lengthUnit: LengthUnit
}) {
  const form = useFormContext<PartTyped>()
  const { control } = form
  const kind = useWatch({ control, name: `${end}.kind` })
  return (
    <FieldGroup legend={legend}>
      <SelectField label="Cut" choices={cutChoices} {...filled(form, `${end}.kind`)} />
      {kind === 'saddle' && (
        <TypedLength name={`${end}.onDiameterMm`} label="Diameter it sits on" lengthUnit={lengthUnit} />
      )}
      {kind !== 'square' && (
        <>
          <TypedAngle
            name={`${end}.angleDeg`}
            label={kind === 'mitre' ? 'Mitre off square' : 'Angle between the tubes'}
            optional={kind === 'saddle'}
            hint={kind === 'mitre' ? '0° would be a square cut' : 'Left empty: 90°'}
          />
          <TypedAngle
            name={`${end}.rotationDeg`}
            label="Turned about the tube"
            optional
            hint="From the tube’s height toward its side; left empty: 0°"
          />
        </>
      )}
    </FieldGroup>
  )
}

export function EndFields({ lengthUnit }: { lengthUnit: LengthUnit }) {
  return (
    <Section title="End cuts">
      <div className="stack">
        <CutFields end="startCut" legend="Datum end" lengthUnit={lengthUnit} />
        <CutFields end="endCut" legend="Far end" lengthUnit={lengthUnit} />
      </div>
    </Section>
  )
}
