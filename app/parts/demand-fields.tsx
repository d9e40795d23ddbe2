'use client'

import { useFormContext } from 'react-hook-form'
import { filled } from '@/app/_shop/filled'
import { CheckField, SelectField, TextArea } from '@/app/_ui/field'
import { Section } from '@/app/_ui/section'
import type { LengthUnit } from '@/lib/core/units'
import { generalTolerances, type PartTyped } from '@/lib/records/part/schema'
import { TypedAngle, TypedLength, TypedNumber } from './typed-fields'

/** What the part must keep to, and what becomes of it. */
export function DemandFields({ lengthUnit }: { lengthUnit: LengthUnit }) {
  const form = useFormContext<PartTyped>()
  const { formState } = form
  const { errors } = formState
  return (
    <>
      <Section title="Tolerances">
        <div className="fields">
          <TypedAngle name="angleToleranceDeg" label="Angle, ±" />
          <TypedLength name="lengthToleranceMm" label="Lengths, ±" lengthUnit={lengthUnit} />
          <TypedLength
            name="radiusToleranceMm"
            label="Radius, ±"
            optional
            hint="Left empty: the general class counts"
            lengthUnit={lengthUnit}
          />
          <TypedNumber
            name="sectionTolerancePct"
            label="Flattening allowed"
            unit="%"
            optional
            hint="Of the height, each face; left empty: holds under 0.5 %"
          />
          <SelectField
            label="General tolerance"
            choices={generalTolerances.map((value) => ({ value, label: value }))}
            {...filled(form, 'generalTolerance')}
            error={errors.generalTolerance?.message}
          />
        </div>
      </Section>
      <Section title="Afterwards">
        <div className="fields">
          <CheckField
            label="Welded afterwards"
            hint="Weld heat takes the temper back beside the weld"
            {...filled(form, 'weldedAfter')}
          />
          <CheckField
            label="A failure could hurt somebody"
            hint="Said on every paper; local codes and a licensed engineer decide about use"
            {...filled(form, 'couldHurt')}
          />
          <TypedNumber name="typicalQuantity" label="Usual quantity" />
          <TextArea
            label="Holes, notes"
            rows={4}
            maxLength={4000}
            hint="Holes near a bend, finish, what to watch for"
            {...filled(form, 'notesText')}
            error={errors.notesText?.message}
          />
        </div>
      </Section>
    </>
  )
}
