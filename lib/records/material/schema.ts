import { z } from 'zod'
import { decimalText, orEmpty, plainText, type ShopUnits, versionField } from '@/lib/records/fields'
import { stressText } from '@/lib/records/tooling/schema'

export const families = ['aluminium', 'steel', 'stainless', 'titanium', 'copper'] as const
export const ownStatuses = ['verified', 'secondary', 'memory'] as const

const idField = plainText({ min: 1, max: 60, empty: 'Give it the name it is ordered by: 6061-T6' }).refine(
  (id) => /^[A-Za-z0-9][A-Za-z0-9 ._-]*$/.test(id),
  'Letters, digits, spaces, dots and dashes only',
)

function valueFields(units: ShopUnits) {
  return z.object({
    name: plainText({ max: 120 }),
    family: z.enum(families, 'Choose a family'),
    temper: plainText({ max: 30 }),
    form: plainText({ max: 60 }),
    elasticModulusMPa: stressText(units, { min: 10_000, max: 500_000 }),
    poisson: decimalText({ min: 0.05, max: 0.5 }),
    densityKgM3: decimalText({ min: 1000, max: 25_000, unit: 'kg/m³' }),
    yieldMPa: stressText(units, { min: 5, max: 3000 }),
    tensileMPa: stressText(units, { min: 5, max: 3500 }),
    elongationPct: decimalText({ min: 0.5, max: 90, unit: '%' }),
    uniformStrain: orEmpty(decimalText({ min: 0.001, max: 0.9 })),
    reductionOfAreaPct: orEmpty(decimalText({ min: 1, max: 99, unit: '%' })),
    heatTreatable: z.boolean(),
    sourceText: plainText({
      min: 1,
      max: 200,
      empty: 'Say where the values are from: who reads them later must know',
    }),
    status: z.enum(ownStatuses, 'Choose how sure it is'),
  })
}

type Values = z.output<ReturnType<typeof valueFields>>

const strengthOrder = {
  path: ['tensileMPa'],
  message:
    'Allowed: more than the yield; the bend is computed from how far the metal hardens between the two',
}
const hardens = ({ yieldMPa, tensileMPa }: Pick<Values, 'yieldMPa' | 'tensileMPa'>) => tensileMPa > yieldMPa

/** A material of the shop's own, or, where it says so, its own values for one of the table's. */
export const newMaterialForm = (units: ShopUnits) =>
  valueFields(units).extend({ id: idField, overTable: z.boolean() }).refine(hardens, strengthOrder)
export type NewMaterialTyped = z.input<ReturnType<typeof newMaterialForm>>
export type NewMaterial = z.output<ReturnType<typeof newMaterialForm>>

export const materialForm = (units: ShopUnits) =>
  valueFields(units).extend({ id: idField, version: versionField }).refine(hardens, strengthOrder)
export type MaterialChange = z.output<ReturnType<typeof materialForm>>

export const materialPress = z.object({ id: idField, version: versionField })
export type MaterialPress = z.output<typeof materialPress>
