'use client'

import { useRouter } from 'next/navigation'
import { useWatch } from 'react-hook-form'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button, LinkButton } from '@/app/_ui/button'
import { NumberField, SelectField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import { formatNumber, formatStress } from '@/lib/core/format'
import { MODULUS_158_MPA, YIELD_158_MPA } from '@/lib/core/materials/low-melt'
import { statusWords } from '@/lib/core/materials/provenance'
import { shopUnits } from '@/lib/core/shop-format'
import type { ShopUnits } from '@/lib/records/fields'
import { partsTyped } from '@/lib/records/filler-alloy/rules'
import {
  type FillerAlloyTyped,
  fillerAlloyForm,
  fillerMetals,
  newFillerAlloyForm,
} from '@/lib/records/filler-alloy/schema'
import { ownStatuses } from '@/lib/records/material/schema'
import { addFillerAlloyAction, changeFillerAlloyAction } from '../actions'

type Typed = FillerAlloyTyped & { version?: number }

/** An alloy of the shop's own: what is in it, where it melts, and what else is known of it. */
export function FillerAlloyForm({
  units,
  start,
  version,
}: {
  units: ShopUnits
  start: FillerAlloyTyped
  /** Of the alloy that is changed; left out to add one. */
  version?: number
}) {
  const router = useRouter()
  const isNew = version === undefined
  const { form, field, submit, status, saving } = useRecordForm<Typed, { id: string }>({
    schema: isNew ? newFillerAlloyForm(units) : fillerAlloyForm(units),
    start: isNew ? start : { ...start, version },
    action: (typed) => (isNew ? addFillerAlloyAction(typed) : changeFillerAlloyAction(typed)),
    onSaved: ({ id }) =>
      isNew ? router.push(`/materials/fillers/${encodeURIComponent(id)}`) : router.refresh(),
  })
  const { sumPct, densityKgM3 } = partsTyped(useWatch({ control: form.control }) as FillerAlloyTyped)
  const { stress, temperature } = shopUnits[units.lengthUnit]
  const usual = (stressMPa: number) =>
    `Left empty: ${formatStress(stressMPa, { unit: stress })}, the 158 °F eutectic’s`
  return (
    <form method="post" onSubmit={submit} className="stack stack-loose" noValidate>
      <Section title={isNew ? 'What it is' : 'Change it'}>
        <div className="fields">
          <TextField
            label="Alloy"
            maxLength={60}
            hint="The name it is ordered by, or what the shop calls it"
            readOnly={!isNew}
            {...field('id')}
          />
          <TextField label="In words" optional maxLength={120} {...field('name')} />
        </div>
      </Section>
      <Section title="What is in it">
        <Notice kind="caution" title="Gallium, mercury and zinc crack aluminium">
          An alloy that holds any of them has no place in a tube and can’t be entered. From what you enter
          here the cautions about lead, cadmium and indium are told on every screen and paper of a job.
        </Notice>
        <div className="fields">
          {fillerMetals.map(([symbol, name, words]) => (
            <NumberField key={symbol} label={words} unit="%" inputMode="decimal" {...field(name)} />
          ))}
        </div>
        <p role="status">
          By mass, {formatNumber(sumPct, { decimals: 2 })} % so far
          {densityKgM3 === null ? '; it has to come to 100 %.' : ': the whole of it.'}
        </p>
      </Section>
      <Section title="Its values">
        <p className="muted">
          Where it melts decides how it is poured and melted out, and what that does to the temper of the
          tube.
        </p>
        <div className="fields">
          <NumberField label="Begins to melt" unit={`°${temperature}`} {...field('solidusC')} />
          <NumberField
            label="All molten"
            unit={`°${temperature}`}
            hint="A eutectic: the same again"
            {...field('liquidusC')}
          />
          <NumberField
            label="Density"
            optional
            unit="kg/m³"
            inputMode="decimal"
            hint={
              densityKgM3 === null
                ? 'Left empty: by its parts. Best: a slug you cast and weighed'
                : `Left empty: ${formatNumber(densityKgM3, { decimals: 0 })} kg/m³ by its parts`
            }
            {...field('densityKgM3')}
          />
          <NumberField
            label="Yield strength"
            optional
            unit={stress}
            hint={usual(YIELD_158_MPA)}
            {...field('yieldMPa')}
          />
          <NumberField
            label="Modulus"
            optional
            unit={stress}
            hint={usual(MODULUS_158_MPA)}
            {...field('elasticModulusMPa')}
          />
          <NumberField
            label="Latent heat"
            optional
            unit="kJ/kg"
            inputMode="decimal"
            {...field('latentHeatKJPerKg')}
          />
          <TextArea
            label="As it freezes"
            optional
            rows={2}
            maxLength={300}
            hint="Grows, shrinks, and by when. Left empty: told from its bismuth"
            {...field('growthNote')}
          />
        </div>
      </Section>
      <Section title="Where they are from">
        <div className="fields">
          <TextField
            label="Source"
            maxLength={200}
            hint="Whose sheet or standard, or whose test and when"
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
          {isNew ? 'Add the alloy' : 'Save the alloy'}
        </Button>
        {isNew && (
          <LinkButton kind="quiet" href="/materials/fillers">
            Leave without saving
          </LinkButton>
        )}
        <FormStatus status={status} />
      </div>
    </form>
  )
}
