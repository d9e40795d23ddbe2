'use client'

import { useFieldArray, useFormContext } from 'react-hook-form'
import { Button } from '@/app/_ui/button'
import { FieldError } from '@/app/_ui/field'
import { Mark } from '@/app/_ui/marks'
import { Section } from '@/app/_ui/section'
import type { LengthUnit } from '@/lib/core/units'
import { mostBends, type PartTyped } from '@/lib/records/part/schema'
import { TypedAngle, TypedLength } from './typed-fields'

/** The bends in order from the datum end; the one being typed lights in the drawing, the one pressed there lights here. */
export function BendFields({
  lengthUnit,
  selectedBend,
  onSelectBend,
}: {
  lengthUnit: LengthUnit
  selectedBend: number | null
  onSelectBend: (bend: number) => void
}) {
  const { control, formState, getValues } = useFormContext<PartTyped>()
  const bends = useFieldArray({ control, name: 'bends' })
  const listError = formState.errors.bends?.root?.message ?? formState.errors.bends?.message
  const addAfterLast = () => {
    const last = getValues('bends').at(-1)
    bends.append({
      straightBeforeMm: '',
      angleDeg: '',
      centrelineRadiusMm: last?.centrelineRadiusMm ?? '',
      rotationDeg: '0',
    })
    onSelectBend(bends.fields.length)
  }
  const move = (from: number, to: number) => {
    bends.move(from, to)
    onSelectBend(to)
  }
  return (
    <Section title="Bends">
      <p className="muted small">
        From the datum end. A straight runs between tangent points, a radius to the centreline; the rotation
        turns the tube about its axis before the bend, seen from the datum end, from the plane of the bend
        before.
      </p>
      <ol className="plain-list stack">
        {bends.fields.map((bend, index) => (
          <li key={bend.id}>
            <fieldset
              className={selectedBend === index ? 'bend-row bend-row-lit' : 'bend-row'}
              data-bend={index}
              onFocus={() => onSelectBend(index)}
            >
              <legend className="strong">Bend {index + 1}</legend>
              <div className="bend-row-fields">
                <TypedLength
                  name={`bends.${index}.straightBeforeMm`}
                  label="Straight before"
                  lengthUnit={lengthUnit}
                />
                <TypedAngle name={`bends.${index}.angleDeg`} label="Angle" />
                <TypedLength
                  name={`bends.${index}.centrelineRadiusMm`}
                  label="Centreline radius"
                  lengthUnit={lengthUnit}
                />
                <TypedAngle name={`bends.${index}.rotationDeg`} label="Rotation" />
              </div>
              <div className="row">
                <Button
                  kind="quiet"
                  disabled={index === 0}
                  aria-label={`Move bend ${index + 1} earlier`}
                  onClick={() => move(index, index - 1)}
                >
                  <Mark name="up" /> Earlier
                </Button>
                <Button
                  kind="quiet"
                  disabled={index === bends.fields.length - 1}
                  aria-label={`Move bend ${index + 1} later`}
                  onClick={() => move(index, index + 1)}
                >
                  <Mark name="down" /> Later
                </Button>
                <Button
                  kind="quiet"
                  aria-label={`Remove bend ${index + 1}`}
                  onClick={() => bends.remove(index)}
                >
                  Remove
                </Button>
              </div>
            </fieldset>
          </li>
        ))}
      </ol>
      <FieldError id="bends" error={listError} />
      <div className="row">
        <Button onClick={addAfterLast} disabled={bends.fields.length >= mostBends}>
          Add a bend
        </Button>
      </div>
      <div className="fields">
        <TypedLength name="straightAfterMm" label="Last straight" lengthUnit={lengthUnit} />
      </div>
    </Section>
  )
}
