'use client'

import { useFormContext, useWatch } from 'react-hook-form'
import { filled } from '@/app/_shop/filled'
import { LengthField } from '@/app/_shop/length-field'
import { SelectField } from '@/app/_ui/field'
import { formatLength } from '@/lib/core/format'
import { shopFormat } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import { isSandPot } from '@/lib/records/filler-alloy/rules'
import type { Tooling } from '@/lib/records/setup/rules'
import { type SetupTyped, supportKinds, supportWords } from '@/lib/records/setup/schema'

const retiredMark = (retired: boolean) => (retired ? ', retired' : '')

/** Press, span, die, strap and what goes in the bore, out of what the shop has. */
export function SetUpFields({
  tooling,
  lengthUnit,
  faultAt,
}: {
  tooling: Tooling
  lengthUnit: LengthUnit
  /** What the model can't do with the choice, by the field it concerns. */
  faultAt: Readonly<Record<string, string>>
}) {
  const form = useFormContext<SetupTyped>()
  const { control, formState } = form
  const { support, supportSpanMm, pressId } = useWatch({ control })
  const press = tooling.presses.find(({ id }) => String(id) === String(pressId))
  const length = (mm: number) => formatLength(mm, lengthUnit)
  const field = (name: keyof SetupTyped) => ({
    ...filled(form, name),
    error: formState.errors[name]?.message ?? faultAt[name],
  })
  const pots = tooling.fillers.filter((pot) => isSandPot(pot) === (support === 'sand'))
  return (
    <div className="fields">
      <SelectField
        label="Press"
        choices={tooling.presses.map((one) => ({
          value: String(one.id),
          label: `${one.shopNumber} ${one.name}, ${shopFormat(lengthUnit).force(one.capacityKn)}${retiredMark(one.retired)}`,
        }))}
        {...field('pressId')}
      />
      <LengthField
        label="Span between supports"
        hint={
          press &&
          `${press.shopNumber} takes ${length(press.minimumSpanMm)} to ${length(press.maximumSpanMm)}`
        }
        lengthUnit={lengthUnit}
        typed={String(supportSpanMm ?? '')}
        {...field('supportSpanMm')}
      />
      <SelectField
        label="Die"
        placeholder="Die to make: the spec says its radius"
        choices={tooling.dies.map((die) => ({
          value: String(die.id),
          label: `${die.shopNumber}, surface radius ${length(die.surfaceRadiusMm)}${retiredMark(die.retired)}`,
        }))}
        {...field('dieId')}
      />
      <SelectField
        label="In the bore"
        choices={supportKinds.map((value) => ({ value, label: supportWords[value] }))}
        {...field('support')}
      />
      {support !== 'hollow' && (
        <SelectField
          label={support === 'sand' ? 'Sand' : 'Pot of filler'}
          placeholder={support === 'sand' ? 'Dry sand, the usual values' : 'Choose'}
          choices={pots.map((pot) => ({
            value: String(pot.id),
            label: `${pot.shopNumber} ${pot.name}${retiredMark(pot.retired)}`,
          }))}
          {...field('fillerId')}
        />
      )}
      <SelectField
        label="Strap on the outside of the bend"
        placeholder="No strap"
        choices={tooling.straps.map((strap) => ({
          value: String(strap.id),
          label: `${strap.shopNumber}, ${length(strap.thicknessMm)} × ${length(strap.widthMm)}${retiredMark(strap.retired)}`,
        }))}
        {...field('strapId')}
      />
    </div>
  )
}
