import { z } from 'zod'
import { formatForce, formatMass, formatStress } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import { readForce } from '@/lib/core/typed/force'
import { readMass, readStress } from '@/lib/core/typed/quantity'
import {
  angleText,
  decimalText,
  idText,
  lengthText,
  moneyText,
  orEmpty,
  plainText,
  type ShopUnits,
  versionField,
} from '@/lib/records/fields'

type Range = { readonly min: number; readonly max: number }
type ReadText = { ok: true; value: number } | { ok: false; message: string }

/** A quantity with its unit, within a range that is told in the unit people type it in. */
export function quantityText(
  read: (text: string) => ReadText,
  range: Range,
  show: (value: number) => string,
): z.ZodType<number, string> {
  return z.string().transform((text, context) => {
    const typed = read(text)
    const refuse = (message: string) => {
      context.addIssue({ code: 'custom', message })
      return z.NEVER
    }
    if (!typed.ok) return refuse(typed.message)
    if (typed.value >= range.min && typed.value <= range.max) return typed.value
    return refuse(`Allowed: ${show(range.min)} to ${show(range.max)}; met: ${show(typed.value)}`)
  })
}

/** A press's force, in kN. A bare "20 ton" is refused with the three tons it may be. */
export function forceText(units: ShopUnits, range: Range): z.ZodType<number, string> {
  const defaultUnit = units.lengthUnit === 'in' ? 'lbf' : 'kN'
  const read = (text: string): ReadText => {
    const typed = readForce(text, { defaultUnit })
    return typed.ok ? { ok: true, value: typed.forceKn } : typed
  }
  return quantityText(read, range, (forceKn) => formatForce(forceKn, { unit: defaultUnit }))
}

/** A strength or modulus, in MPa. */
export function stressText(units: ShopUnits, range: Range): z.ZodType<number, string> {
  const defaultUnit = shopUnits[units.lengthUnit].stress
  const read = (text: string): ReadText => {
    const typed = readStress(text, { defaultUnit })
    return typed.ok ? { ok: true, value: typed.stressMPa } : typed
  }
  return quantityText(read, range, (stressMPa) => formatStress(stressMPa, { unit: defaultUnit }))
}

/** A mass, in kg. */
export function massText(units: ShopUnits, range: Range): z.ZodType<number, string> {
  const defaultUnit = shopUnits[units.lengthUnit].mass
  const read = (text: string): ReadText => {
    const typed = readMass(text, { defaultUnit })
    return typed.ok ? { ok: true, value: typed.massKg } : typed
  }
  return quantityText(read, range, (massKg) => formatMass(massKg, { unit: defaultUnit }))
}

const shopNumber = plainText({
  min: 1,
  max: 20,
  empty: 'Give it the number that is stamped or painted on it',
})
const place = plainText({ max: 80 })
const notesText = plainText({ max: 2000 })
const friction = orEmpty(decimalText({ min: 0, max: 1 }))
const which = { id: idText, version: versionField }

function pressFields(units: ShopUnits) {
  return {
    shopNumber,
    name: plainText({ min: 1, max: 80, empty: 'What is the press called?' }),
    capacityKn: forceText(units, { min: 5, max: 20_000 }),
    strokeMm: orEmpty(lengthText(units, { min: 10, max: 3000 })),
    supportNoseRadiusMm: lengthText(units, { min: 0, max: 500 }),
    supportFrictionCoeff: friction,
    minimumSpanMm: lengthText(units, { min: 20, max: 5000 }),
    maximumSpanMm: lengthText(units, { min: 20, max: 5000 }),
    notesText,
  }
}
const spanOrder = { path: ['maximumSpanMm'], message: 'Shorter than the shortest span' }
const spansInOrder = (press: { minimumSpanMm: number; maximumSpanMm: number }) =>
  press.maximumSpanMm >= press.minimumSpanMm

export const newPressForm = (units: ShopUnits) => z.object(pressFields(units)).refine(spansInOrder, spanOrder)
export const pressForm = (units: ShopUnits) =>
  z.object({ ...pressFields(units), ...which }).refine(spansInOrder, spanOrder)
export type NewPress = z.output<ReturnType<typeof newPressForm>>
export type PressChange = z.output<ReturnType<typeof pressForm>>

function dieFields(units: ShopUnits) {
  return {
    shopNumber,
    surfaceRadiusMm: lengthText(units, { min: 5, max: 5000 }),
    grooveWidthMm: orEmpty(lengthText(units, { min: 3, max: 500 })),
    arcDeg: orEmpty(angleText({ min: 1, max: 360 })),
    place,
    notesText,
  }
}
export const newDieForm = (units: ShopUnits) => z.object(dieFields(units))
export const dieForm = (units: ShopUnits) => z.object({ ...dieFields(units), ...which })
export type NewDie = z.output<ReturnType<typeof newDieForm>>
export type DieChange = z.output<ReturnType<typeof dieForm>>

function strapFields(units: ShopUnits) {
  return {
    shopNumber,
    thicknessMm: lengthText(units, { min: 0.3, max: 50 }, { gauge: true }),
    widthMm: lengthText(units, { min: 3, max: 500 }),
    lengthMm: lengthText(units, { min: 50, max: 10_000 }),
    yieldMPa: stressText(units, { min: 50, max: 2500 }),
    frictionCoeff: friction,
    place,
    notesText,
  }
}
export const newStrapForm = (units: ShopUnits) => z.object(strapFields(units))
export const strapForm = (units: ShopUnits) => z.object({ ...strapFields(units), ...which })
export type NewStrap = z.output<ReturnType<typeof newStrapForm>>
export type StrapChange = z.output<ReturnType<typeof strapForm>>

function fillerFields(units: ShopUnits) {
  return {
    shopNumber,
    name: plainText({ min: 1, max: 80, empty: 'What is on the pot?' }),
    fillerId: z.string().min(1, 'Choose what is in the pot').max(80, 'Choose what is in the pot'),
    lotText: plainText({ max: 80 }),
    densityKgM3: orEmpty(decimalText({ min: 500, max: 15_000, unit: 'kg/m³' })),
    yieldMPa: orEmpty(stressText(units, { min: 0.1, max: 200 })),
    modulusMPa: orEmpty(stressText(units, { min: 1, max: 100_000 })),
    priceCentsPerKg: moneyText(units),
    notesText,
  }
}
export const newFillerForm = (units: ShopUnits) => z.object(fillerFields(units))
export const fillerForm = (units: ShopUnits) => z.object({ ...fillerFields(units), ...which })
export type NewFiller = z.output<ReturnType<typeof newFillerForm>>
export type FillerChange = z.output<ReturnType<typeof fillerForm>>

/** Takes a tool out of use, or back into it. */
export const retireForm = z.object({
  id: idText,
  kind: z.enum(['press', 'die', 'strap', 'filler']),
  retired: z.boolean(),
})
export type Retire = z.output<typeof retireForm>

export const fillerMoves = ['bought', 'poured', 'recovered', 'lost', 'counted'] as const

export const fillerEntryForm = (units: ShopUnits) =>
  z.object({
    fillerId: idText,
    kind: z.enum(fillerMoves),
    massKg: massText(units, { min: 0, max: 5000 }),
    noteText: plainText({ max: 300 }),
  })
export type FillerMoved = z.output<ReturnType<typeof fillerEntryForm>> & { jobId?: number }
