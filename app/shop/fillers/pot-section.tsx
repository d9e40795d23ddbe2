import { Section } from '@/app/_ui/section'
import { minorUnitDigits } from '@/lib/core/cost/money'
import { formatNumber } from '@/lib/core/format'
import type { ShopUnits } from '@/lib/records/fields'
import { typedNumber } from '@/lib/records/shop/rules'
import type { FillerChoice } from './filler-choices'
import { FillerForm } from './filler-form'

type Pot = {
  id: number
  version: number
  shopNumber: string
  name: string
  fillerId: string
  lotText: string
  densityKgM3: number | null
  yieldMPa: number | null
  modulusMPa: number | null
  priceCentsPerKg: number
  notesText: string
}

export function PotSection({
  pot,
  units,
  choices,
}: {
  pot: Pot
  units: ShopUnits
  choices: readonly FillerChoice[]
}) {
  const digits = minorUnitDigits(units.currency)
  const stress = (stressMPa: number | null) => (stressMPa === null ? '' : `${typedNumber(stressMPa)} MPa`)
  return (
    <Section title="The pot itself">
      <FillerForm
        units={units}
        choices={choices}
        saved={{ id: pot.id, version: pot.version }}
        start={{
          shopNumber: pot.shopNumber,
          name: pot.name,
          fillerId: pot.fillerId,
          lotText: pot.lotText,
          densityKgM3: typedNumber(pot.densityKgM3),
          yieldMPa: stress(pot.yieldMPa),
          modulusMPa: stress(pot.modulusMPa),
          priceCentsPerKg: formatNumber(pot.priceCentsPerKg / 10 ** digits, {
            decimals: digits,
            keepZeros: true,
          }),
          notesText: pot.notesText,
        }}
      />
    </Section>
  )
}
