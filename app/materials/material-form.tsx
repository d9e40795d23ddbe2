'use client'

import { useRouter } from 'next/navigation'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button, LinkButton } from '@/app/_ui/button'
import { CheckField, NumberField, SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import { statusWords } from '@/lib/core/materials/provenance'
import { shopUnits } from '@/lib/core/shop-format'
import type { ShopUnits } from '@/lib/records/fields'
import { familyWords } from '@/lib/records/material/rules'
import {
  families,
  materialForm,
  type NewMaterialTyped,
  newMaterialForm,
  ownStatuses,
} from '@/lib/records/material/schema'
import { addMaterialAction, changeMaterialAction } from './actions'

type Typed = Omit<NewMaterialTyped, 'overTable'> & { overTable?: boolean; version?: number }

export function MaterialForm({
  units,
  start,
  version,
}: {
  units: ShopUnits
  start: Typed
  /** Of the entry that is changed; left out to add one. */
  version?: number
}) {
  const router = useRouter()
  const isNew = version === undefined
  const { field, submit, status, saving } = useRecordForm<Typed, { id: string }>({
    schema: isNew ? newMaterialForm(units) : materialForm(units),
    start: isNew ? start : { ...start, version },
    action: (typed) => (isNew ? addMaterialAction(typed) : changeMaterialAction(typed)),
    onSaved: ({ id }) => router.push(`/materials/${encodeURIComponent(id)}`),
  })
  const stress = shopUnits[units.lengthUnit].stress
  return (
    <form method="post" onSubmit={submit} className="stack stack-loose" noValidate>
      <Section title="What it is">
        <div className="fields">
          <TextField
            label="Material"
            maxLength={60}
            hint="Alloy and temper, as it is ordered"
            readOnly={!isNew}
            {...field('id')}
          />
          <SelectField
            label="Family"
            choices={families.map((value) => ({ value, label: familyWords[value] }))}
            {...field('family')}
          />
          <TextField label="Temper" maxLength={30} hint="T6, O, cold drawn" {...field('temper')} />
          <TextField label="Form" maxLength={60} hint="Extruded, drawn, welded" {...field('form')} />
          <TextField label="In words" maxLength={120} wide {...field('name')} />
          <CheckField
            label="Its strength comes from heat treatment"
            hint="For aluminium: the 2000, 6000 and 7000 series"
            {...field('heatTreatable')}
          />
          {isNew && (
            <CheckField
              label="These stand in for the table’s values of this name"
              hint="Tick it only if that is meant: every part of this material is then computed with them"
              {...field('overTable')}
            />
          )}
        </div>
      </Section>
      <Section title="Its values">
        <p className="muted">
          Typical values or those of a test, not the least a standard allows: springback and force come from
          the metal as it is.
        </p>
        <div className="fields">
          <NumberField label="Yield" unit={stress} hint="0.2 % proof stress" {...field('yieldMPa')} />
          <NumberField label="Tensile" unit={stress} {...field('tensileMPa')} />
          <NumberField label="Elongation" unit="%" hint="On 50 mm or 2 in" {...field('elongationPct')} />
          <NumberField label="Elastic modulus" unit={stress} {...field('elasticModulusMPa')} />
          <NumberField label="Poisson’s ratio" {...field('poisson')} />
          <NumberField label="Density" unit="kg/m³" {...field('densityKgM3')} />
          <NumberField
            label="Uniform strain"
            optional
            hint="Plastic, as a fraction: 0.08. Left empty: the model’s rule"
            {...field('uniformStrain')}
          />
          <NumberField label="Reduction of area" optional unit="%" {...field('reductionOfAreaPct')} />
        </div>
      </Section>
      <Section title="Where they are from">
        <div className="fields">
          <TextField
            label="Source"
            maxLength={200}
            hint="Standard and table, or whose test and when"
            wide
            {...field('sourceText')}
          />
          <SelectField
            label="How sure"
            choices={ownStatuses.map((value) => ({ value, label: statusWords[value] }))}
            {...field('status')}
          />
        </div>
      </Section>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {isNew ? 'Add the material' : 'Save the material'}
        </Button>
        <LinkButton kind="quiet" href={isNew ? '/materials' : `/materials/${encodeURIComponent(start.id)}`}>
          Leave without saving
        </LinkButton>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
