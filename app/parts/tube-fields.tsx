'use client'

import { useFormContext, useWatch } from 'react-hook-form'
import { filled } from '@/app/_shop/filled'
import { SelectField } from '@/app/_ui/field'
import { Section } from '@/app/_ui/section'
import type { LengthUnit } from '@/lib/core/units'
import { type PartTyped, tubeShapes } from '@/lib/records/part/schema'
import { TypedLength } from './typed-fields'

export type MaterialOption = { id: string; name: string; family: string }

const shapeWords = { square: 'Square', rectangular: 'Rectangular', round: 'Round' } as const

/** The tube and what it is made of. */
export function TubeFields({
  lengthUnit,
  materials,
}: {
  lengthUnit: LengthUnit
  materials: readonly MaterialOption[]
}) {
  const form = useFormContext<PartTyped>()
  const { control, formState } = form
  const shape = useWatch({ control, name: 'shape' })
  const families = [...new Set(materials.map(({ family }) => family))]
  const { errors } = formState
  return (
    <Section title="Tube and material">
      <div className="fields">
        <SelectField
          label="Shape"
          choices={tubeShapes.map((value) => ({ value, label: shapeWords[value] }))}
          {...filled(form, 'shape')}
          error={errors.shape?.message}
        />
        <TypedLength
          name="widthMm"
          label={shape === 'round' ? 'Outside diameter' : shape === 'square' ? 'Side' : 'Width'}
          hint={shape === 'rectangular' ? 'Across the bend plane' : undefined}
          lengthUnit={lengthUnit}
        />
        {shape === 'rectangular' && (
          <TypedLength
            name="heightMm"
            label="Height"
            hint="In the plane of the bend"
            lengthUnit={lengthUnit}
          />
        )}
        <TypedLength name="wallMm" label="Wall" hint="A gauge too: 11 ga" lengthUnit={lengthUnit} gauge />
        {shape !== 'round' && (
          <TypedLength
            name="cornerRadiusMm"
            label="Outside corner radius"
            hint="Left empty: the usual one of the material"
            optional
            lengthUnit={lengthUnit}
          />
        )}
        <SelectField
          label="Material and temper"
          placeholder="Choose"
          {...filled(form, 'materialId')}
          error={errors.materialId?.message}
        >
          {families.map((family) => (
            <optgroup key={family} label={family}>
              {materials
                .filter((material) => material.family === family)
                .map(({ id, name }) => (
                  <option key={id} value={id}>
                    {name}
                  </option>
                ))}
            </optgroup>
          ))}
        </SelectField>
      </div>
    </Section>
  )
}
