import { z } from 'zod'
import { formatTemperature } from '@/lib/core/format'
import { fillerById } from '@/lib/core/materials/fillers'
import { COMPOSITION_SLACK_PCT, type ElementSymbol, sumOfParts } from '@/lib/core/materials/mixture'
import { ownFillerRanges } from '@/lib/core/materials/own-filler'
import { shopUnits } from '@/lib/core/shop-format'
import { readTemperature } from '@/lib/core/typed/quantity'
import { decimalText, orEmpty, plainText, type ShopUnits, versionField } from '@/lib/records/fields'
import { ownStatuses } from '@/lib/records/material/schema'
import { quantityText, stressText } from '@/lib/records/tooling/schema'

/** The metals a filler may hold, each with the field its share is typed in. What else melts low harms the tube. */
export const fillerMetals = [
  ['Bi', 'bismuthPct', 'Bismuth'],
  ['Pb', 'leadPct', 'Lead'],
  ['Sn', 'tinPct', 'Tin'],
  ['Cd', 'cadmiumPct', 'Cadmium'],
  ['In', 'indiumPct', 'Indium'],
  ['Sb', 'antimonyPct', 'Antimony'],
] as const satisfies readonly (readonly [ElementSymbol, string, string])[]

const idField = plainText({
  min: 1,
  max: 60,
  empty: 'Give it the name it is ordered by or called in the shop',
})
  .refine((id) => /^[A-Za-z0-9][A-Za-z0-9 ._-]*$/.test(id), 'Letters, digits, spaces, dots and dashes only')
  .refine((id) => id.toLowerCase() !== 'new', 'Give it a name that says what it is')

function temperatureText(units: ShopUnits, range: { min: number; max: number }): z.ZodType<number, string> {
  const defaultUnit = shopUnits[units.lengthUnit].temperature
  const read = (text: string) => {
    const typed = readTemperature(text, { defaultUnit })
    return typed.ok ? { ok: true as const, value: typed.temperatureC } : typed
  }
  return quantityText(read, range, (temperatureC) => formatTemperature(temperatureC, { unit: defaultUnit }))
}

const share = orEmpty(decimalText({ min: 0, max: 100, unit: '%' }))

function alloyFields(units: ShopUnits) {
  const { meltingC, densityKgM3, yieldMPa, elasticModulusMPa, latentHeatKJPerKg } = ownFillerRanges
  return z.object({
    id: idField,
    name: plainText({ max: 120 }),
    bismuthPct: share,
    leadPct: share,
    tinPct: share,
    cadmiumPct: share,
    indiumPct: share,
    antimonyPct: share,
    solidusC: temperatureText(units, meltingC),
    liquidusC: temperatureText(units, meltingC),
    densityKgM3: orEmpty(decimalText({ ...densityKgM3, unit: 'kg/m³' })),
    yieldMPa: orEmpty(stressText(units, yieldMPa)),
    elasticModulusMPa: orEmpty(stressText(units, elasticModulusMPa)),
    latentHeatKJPerKg: orEmpty(decimalText({ ...latentHeatKJPerKg, unit: 'kJ/kg' })),
    growthNote: plainText({ max: 300 }),
    sourceText: plainText({
      min: 1,
      max: 200,
      empty: 'Say where the values are from: who pours it later must know',
    }),
    status: z.enum(ownStatuses, 'Choose how sure it is'),
  })
}

type Values = z.output<ReturnType<typeof alloyFields>>

/** What no single field can tell: the whole of the parts, and the order of melting. */
function checkTogether(alloy: Values, context: z.core.$RefinementCtx<Values>): void {
  const { sumPct, isWhole } = sumOfParts(
    Object.fromEntries(fillerMetals.map(([symbol, field]) => [symbol, alloy[field] ?? 0])),
  )
  if (!isWhole) {
    const message = `Allowed: parts that add up to 100 %, within ${COMPOSITION_SLACK_PCT}; these add up to ${Number(sumPct.toFixed(2))} %`
    context.addIssue({ code: 'custom', path: ['bismuthPct'], message })
  }
  if (alloy.liquidusC < alloy.solidusC) {
    const message = 'Allowed: not under the temperature where it begins to melt'
    context.addIssue({ code: 'custom', path: ['liquidusC'], message })
  }
}

/** A low-melt alloy of the shop's own, one that is in no table. */
export const newFillerAlloyForm = (units: ShopUnits) =>
  alloyFields(units)
    .superRefine(checkTogether)
    .refine(({ id }) => fillerById(id) === undefined, {
      path: ['id'],
      message: 'The table has one of this name: give yours another',
    })
export type FillerAlloyTyped = z.input<ReturnType<typeof newFillerAlloyForm>>
export type NewFillerAlloy = z.output<ReturnType<typeof newFillerAlloyForm>>

export const fillerAlloyForm = (units: ShopUnits) =>
  alloyFields(units).extend({ version: versionField }).superRefine(checkTogether)
export type FillerAlloyChange = z.output<ReturnType<typeof fillerAlloyForm>>

const amount = z.number().nullable()

/** An alloy as its row keeps it: what was typed, read. */
export const fillerAlloyKept = z.object({
  id: z.string(),
  name: z.string(),
  bismuthPct: amount,
  leadPct: amount,
  tinPct: amount,
  cadmiumPct: amount,
  indiumPct: amount,
  antimonyPct: amount,
  solidusC: z.number(),
  liquidusC: z.number(),
  densityKgM3: amount,
  yieldMPa: amount,
  elasticModulusMPa: amount,
  latentHeatKJPerKg: amount,
  growthNote: z.string(),
  sourceText: z.string(),
  status: z.enum(ownStatuses),
}) satisfies z.ZodType<NewFillerAlloy>

export const fillerAlloyPress = z.object({ id: idField, version: versionField })
export type FillerAlloyPress = z.output<typeof fillerAlloyPress>
