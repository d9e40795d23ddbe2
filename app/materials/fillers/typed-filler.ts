import { formatNumber, formatTemperature } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import type { FillerAlloyTyped, NewFillerAlloy } from '@/lib/records/filler-alloy/schema'

/** An alloy's values as the form's texts, to begin from. */
export function typedFiller(alloy: NewFillerAlloy, lengthUnit: LengthUnit): FillerAlloyTyped {
  const { temperature } = shopUnits[lengthUnit]
  const number = (value: number | null) => (value === null ? '' : formatNumber(value, { decimals: 6 }))
  // In the unit they are kept in: through ksi and back a value would come out another.
  const strength = (value: number | null) => (value === null ? '' : `${number(value)} MPa`)
  const melting = (value: number) => formatTemperature(value, { unit: temperature, decimals: 6 })
  return {
    id: alloy.id,
    name: alloy.name,
    bismuthPct: number(alloy.bismuthPct),
    leadPct: number(alloy.leadPct),
    tinPct: number(alloy.tinPct),
    cadmiumPct: number(alloy.cadmiumPct),
    indiumPct: number(alloy.indiumPct),
    antimonyPct: number(alloy.antimonyPct),
    solidusC: melting(alloy.solidusC),
    liquidusC: melting(alloy.liquidusC),
    densityKgM3: number(alloy.densityKgM3),
    yieldMPa: strength(alloy.yieldMPa),
    elasticModulusMPa: strength(alloy.elasticModulusMPa),
    latentHeatKJPerKg: number(alloy.latentHeatKJPerKg),
    growthNote: alloy.growthNote,
    sourceText: alloy.sourceText,
    status: alloy.status,
  }
}

export const emptyFiller: FillerAlloyTyped = {
  id: '',
  name: '',
  bismuthPct: '',
  leadPct: '',
  tinPct: '',
  cadmiumPct: '',
  indiumPct: '',
  antimonyPct: '',
  solidusC: '',
  liquidusC: '',
  densityKgM3: '',
  yieldMPa: '',
  elasticModulusMPa: '',
  latentHeatKJPerKg: '',
  growthNote: '',
  sourceText: '',
  status: 'memory',
}
