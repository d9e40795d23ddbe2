'use client'

import { useRouter } from 'next/navigation'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { NumberField, SelectField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { formatForce, formatLength } from '@/lib/core/format'
import type { ShopUnits } from '@/lib/records/fields'
import { lengthForField } from '@/lib/records/part/rules'
import type { Tooling } from '@/lib/records/setup/rules'
import { setupForm, supportKinds, supportWords } from '@/lib/records/setup/schema'
import { saveSetupAction } from './actions'

type Saved = {
  version: number
  support: (typeof supportKinds)[number]
  supportSpanMm: number
  pressId: number
  dieId: number | null
  strapId: number | null
  fillerId: number | null
}

const idText = (id: number | null | undefined) => (id == null ? '' : String(id))

/** Press, span, die, strap and what goes in the bore; the spec below answers to it. */
export function SetupForm({
  revisionId,
  setup,
  tooling,
  units,
}: {
  revisionId: number
  setup: Saved | null
  tooling: Tooling
  units: ShopUnits
}) {
  const router = useRouter()
  const show = (mm: number) => formatLength(mm, units.lengthUnit)
  const { field, submit, status, saving } = useRecordForm({
    schema: setupForm(units),
    start: {
      revisionId: String(revisionId),
      version: setup?.version ?? 0,
      support: setup?.support ?? 'lowMelt',
      pressId: idText(setup?.pressId ?? tooling.presses[0]?.id),
      supportSpanMm: setup ? lengthForField(setup.supportSpanMm, units.lengthUnit) : '',
      dieId: idText(setup?.dieId),
      strapId: idText(setup?.strapId),
      fillerId: idText(setup?.fillerId),
    },
    action: saveSetupAction,
    onSaved: () => router.refresh(),
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <SelectField
          label="Press"
          placeholder="Choose"
          choices={tooling.presses.map((press) => ({
            value: String(press.id),
            label: `${press.shopNumber} ${press.name}, ${formatForce(press.capacityKn, { unit: 'kN' })}`,
          }))}
          {...field('pressId')}
        />
        <NumberField label="Support span" unit={units.lengthUnit} {...field('supportSpanMm')} />
        <SelectField
          label="Die"
          choices={[
            { value: '', label: 'One to make: the spec says which' },
            ...tooling.dies.map((die) => ({
              value: String(die.id),
              label: `${die.shopNumber}, surface radius ${show(die.surfaceRadiusMm)}`,
            })),
          ]}
          {...field('dieId')}
        />
        <SelectField
          label="In the bore"
          choices={supportKinds.map((kind) => ({ value: kind, label: supportWords[kind] }))}
          {...field('support')}
        />
        <SelectField
          label="Filler"
          choices={[
            { value: '', label: 'None, or the usual one' },
            ...tooling.fillers.map((filler) => ({
              value: String(filler.id),
              label: `${filler.shopNumber} ${filler.name}`,
            })),
          ]}
          {...field('fillerId')}
        />
        <SelectField
          label="Strap"
          choices={[
            { value: '', label: 'None' },
            ...tooling.straps.map((strap) => ({
              value: String(strap.id),
              label: `${strap.shopNumber}, ${show(strap.thicknessMm)} × ${show(strap.widthMm)}`,
            })),
          ]}
          {...field('strapId')}
        />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Use this set-up
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
