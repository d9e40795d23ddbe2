import { z } from 'zod'
import { bendLooks } from '@/lib/records/bend-record/rules'
import { angleText, idText, lengthText, orEmpty, plainText, type ShopUnits } from '@/lib/records/fields'

/** Made on the device when the entry is made, so that sending it twice keeps it once. */
export const clientKeyField = z
  .string()
  .regex(/^[A-Za-z0-9_-]{16,64}$/, 'The entry has no proper key of its own')

const angle = () => orEmpty(angleText({ min: 0, max: 179.9 }))

/** The measurements of a try, as they are typed on the bench. */
function readings(units: ShopUnits) {
  const length = (max: number) => orEmpty(lengthText(units, { min: 0.05, max }))
  return {
    loadedAngleDeg: angle(),
    angleAtPressDeg: angle(),
    angleFinalDeg: angle(),
    radiusMm: length(20_000),
    widthOutsideMm: length(1000),
    widthMiddleMm: length(1000),
    widthInsideMm: length(1000),
    heightMm: length(1000),
    wallOutsideMm: length(50),
    wallInsideMm: length(50),
    look: z.union([z.literal('').transform(() => null), z.enum(bendLooks)], 'Choose one'),
    dyePenetrant: z.enum(['notDone', 'clear', 'indication'], 'Choose one'),
    gaugeText: plainText({ max: 80 }),
    gaugeUncertaintyDeg: angleText({ min: 0, max: 10 }),
    noteText: plainText({ max: 1000 }),
  }
}

export function tryForm(units: ShopUnits) {
  return z.object({
    kind: z.literal('try'),
    clientKey: clientKeyField,
    scanCode: z.string().min(16).max(64),
    bendPosition: z.number().int().min(1).max(100),
    targetAtPressDeg: angle(),
    ...readings(units),
  })
}

/** The rest of a try that waited for its melt-out. Names the try by the key it was made with, or by its row. */
export function completeForm(units: ShopUnits) {
  return z.object({
    kind: z.literal('complete'),
    clientKey: clientKeyField,
    recordKey: clientKeyField,
    ...readings(units),
  })
}

export const startForm = z.object({
  kind: z.literal('start'),
  clientKey: clientKeyField,
  operationId: idText,
  pieceId: idText.nullable(),
  at: z.iso.datetime(),
})

export const stopForm = z.object({
  kind: z.literal('stop'),
  clientKey: clientKeyField,
  startKey: clientKeyField,
  at: z.iso.datetime(),
  /** Why the clock is stopped at another time than now: it was forgotten. */
  reasonText: plainText({ max: 300 }).default(''),
})

export const benchFaultForm = z.object({
  kind: z.literal('fault'),
  clientKey: clientKeyField,
  scanCode: z.string().min(16).max(64),
  description: plainText({ min: 3, max: 1000, empty: 'Say what is wrong' }),
})

/** A picture, already made small on the device; belongs to the try of that key. */
export const photoForm = z.object({
  kind: z.literal('photo'),
  clientKey: clientKeyField,
  recordKey: clientKeyField,
  name: z.string().max(200),
  base64: z.string().max(8_000_000, 'The picture is too large'),
})

/** Everything the bench sends, one entry at a time. */
export function benchEntry(units: ShopUnits) {
  return z.discriminatedUnion('kind', [
    tryForm(units),
    completeForm(units),
    startForm,
    stopForm,
    benchFaultForm,
    photoForm,
  ])
}

export type BenchEntry = z.output<ReturnType<typeof benchEntry>>
export type BenchTyped = z.input<ReturnType<typeof benchEntry>>
export type TryInput = z.output<ReturnType<typeof tryForm>>
export type CompleteInput = z.output<ReturnType<typeof completeForm>>
