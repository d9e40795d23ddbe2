import { formatNumber, formatStress } from '@/lib/core/format'
import type { Alloy } from '@/lib/core/materials/alloys'
import { shopUnits } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import type { NewMaterialTyped } from '@/lib/records/material/schema'

/** An alloy's values as the form's texts, to begin from. */
export function typedAlloy(
  alloy: Omit<Alloy, 'tubeTolerance'>,
  lengthUnit: LengthUnit,
): Omit<NewMaterialTyped, 'overTable'> {
  const stress = (stressMPa: number) =>
    formatStress(stressMPa, { unit: shopUnits[lengthUnit].stress, decimals: 4 })
  const number = (value: number | undefined) =>
    value === undefined ? '' : formatNumber(value, { decimals: 6 })
  const from = alloy.sources.yieldMPa
  return {
    id: alloy.id,
    name: alloy.name,
    family: alloy.family,
    temper: alloy.temper,
    form: alloy.form,
    elasticModulusMPa: stress(alloy.elasticModulusMPa),
    poisson: number(alloy.poisson),
    densityKgM3: number(alloy.densityKgM3),
    yieldMPa: stress(alloy.yieldMPa),
    tensileMPa: stress(alloy.tensileMPa),
    elongationPct: number(alloy.elongationPct),
    uniformStrain: number(alloy.uniformStrain),
    reductionOfAreaPct: number(alloy.reductionOfAreaPct),
    heatTreatable: alloy.heatTreatable,
    sourceText: from?.source ?? '',
    status: from === undefined || from.status === 'computed' ? 'memory' : from.status,
  }
}

export const emptyAlloy: Omit<NewMaterialTyped, 'overTable'> = {
  id: '',
  name: '',
  family: 'aluminium',
  temper: '',
  form: '',
  elasticModulusMPa: '',
  poisson: '',
  densityKgM3: '',
  yieldMPa: '',
  tensileMPa: '',
  elongationPct: '',
  uniformStrain: '',
  reductionOfAreaPct: '',
  heatTreatable: false,
  sourceText: '',
  status: 'memory',
}
