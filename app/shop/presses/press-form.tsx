'use client'

import { useWatch } from 'react-hook-form'
import type { z } from 'zod'
import { LengthField } from '@/app/_shop/length-field'
import { Button } from '@/app/_ui/button'
import { NumberField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { formatNumber } from '@/lib/core/format'
import { readForce } from '@/lib/core/typed/force'
import { type PressTon, pressTons } from '@/lib/core/units'
import type { ShopUnits } from '@/lib/records/fields'
import { newPressForm } from '@/lib/records/tooling/schema'
import { addPressAction, changePressAction } from '../actions'
import { useToolForm } from '../use-tool-form'

export type TypedPress = z.input<ReturnType<typeof newPressForm>>

/** How each ton is written so that it is read back as that ton. */
const tonWords: Readonly<Record<PressTon, string>> = {
  usShort: 'US ton',
  metric: 'metric ton',
  long: 'long ton',
}

export function PressForm({
  units,
  start,
  saved,
}: {
  units: ShopUnits
  start: TypedPress
  /** The press that is changed; left out to add one. */
  saved?: { id: number; version: number }
}) {
  const { form, field, submit, status, saving } = useToolForm<TypedPress>({
    schema: newPressForm(units),
    start,
    saved,
    add: addPressAction,
    change: changePressAction,
    listHref: '/shop/presses',
  })
  const now = useWatch({ control: form.control })
  const { lengthUnit } = units
  const force = readForce(now.capacityKn ?? '', {
    defaultUnit: lengthUnit === 'in' ? 'lbf' : 'kN',
  })
  const length = (name: 'strokeMm' | 'supportNoseRadiusMm' | 'minimumSpanMm' | 'maximumSpanMm') => ({
    ...field(name),
    lengthUnit,
    typed: now[name] ?? '',
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <TextField label="Shop number" maxLength={20} hint="As painted on it: P-1" {...field('shopNumber')} />
        <TextField label="Name" maxLength={80} hint="50 ton H-frame by the door" {...field('name')} />
        <div className="stack stack-tight">
          <NumberField
            label="Rated force"
            hint="Off its plate, with the unit: 20 US ton, 200 kN"
            understood={force.ok ? force.echo : ''}
            {...field('capacityKn')}
          />
          {!force.ok && force.choices && (
            <div className="row" role="group" aria-label="Which ton is on the plate?">
              {force.choices.map(({ ton, label, forceKn }) => (
                <Button
                  key={ton}
                  onClick={() =>
                    form.setValue(
                      'capacityKn',
                      `${formatNumber(forceKn / pressTons[ton].kilonewtons)} ${tonWords[ton]}`,
                      {
                        shouldDirty: true,
                        shouldValidate: true,
                      },
                    )
                  }
                >
                  {label}
                </Button>
              ))}
            </div>
          )}
        </div>
        <LengthField label="Stroke" optional hint="How far the ram travels" {...length('strokeMm')} />
        <LengthField
          label="Nose radius of the supports"
          hint="What the tube rests and slides on"
          {...length('supportNoseRadiusMm')}
        />
        <LengthField
          label="Shortest span"
          hint="Between the supports, centre to centre"
          {...length('minimumSpanMm')}
        />
        <LengthField label="Longest span" {...length('maximumSpanMm')} />
        <NumberField
          label="Friction at the supports"
          optional
          inputMode="decimal"
          hint="0 to 1; left empty: 0.15"
          {...field('supportFrictionCoeff')}
        />
        <TextArea label="Notes" rows={3} maxLength={2000} {...field('notesText')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {saved ? 'Save' : 'Add the press'}
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
