import { z } from 'zod'
import {
  dayText,
  decimalText,
  idText,
  lengthText,
  moneyText,
  orEmpty,
  plainText,
  type ShopUnits,
  versionField,
  wholeText,
} from '@/lib/records/fields'

/** '1/5/20' or '1, 5, 20': quantities, smallest first, each once. */
const quantitiesText: z.ZodType<number[], string> = z.string().transform((text, context) => {
  const read = text.split(/[\s,;/]+/).filter((word) => word !== '')
  const quantities = [...new Set(read.map(Number))].sort((one, other) => one - other)
  const whole = quantities.every((count) => Number.isInteger(count) && count >= 1 && count <= 1_000_000)
  if (quantities.length > 0 && quantities.length <= 12 && whole) return quantities
  context.addIssue({ code: 'custom', message: 'Type up to twelve quantities, such as 1/5/20' })
  return z.NEVER
})

/**
 * A lead time as benders say it, in working days: 20, 4 weeks (five days each), 28 calendar days (five of seven, rounded up).
 * Source: a five-day week; common practice.
 */
export const workingDaysText: z.ZodType<number, string> = z.string().transform((text, context) => {
  const [, digits, unit = ''] = /^(\d{1,4})\s*([a-z ]*)$/.exec(text.trim().toLowerCase()) ?? []
  const count = Number(digits)
  const days = /^(w|wk|wks|weeks?)$/.test(unit)
    ? count * 5
    : /^(cal|calendar)( ?days?)?$/.test(unit)
      ? Math.ceil((count * 5) / 7)
      : /^(d|days?|working days?|work days?|business days?)?$/.test(unit)
        ? count
        : Number.NaN
  if (digits !== undefined && days <= 1000) return days
  context.addIssue({ code: 'custom', message: 'Type working days, or such as 4 weeks or 28 calendar days' })
  return z.NEVER
})

/** One price request to several benders at once. */
export const sendAsksForm = z
  .object({
    revisionId: idText,
    sourceIds: z.array(idText).min(1, 'Choose at least one bender').max(30),
    quantities: quantitiesText,
    sentOn: dayText,
    chaseOn: dayText,
    notesText: plainText({ max: 2000 }),
  })
  .refine(({ sentOn, chaseOn }) => chaseOn >= sentOn, {
    path: ['chaseOn'],
    message: 'The day to chase lies before the day it was sent',
  })
export type SendAsks = z.output<typeof sendAsksForm>

const answerOf = { id: idText, version: versionField, repliedOn: dayText }

/** A quote as the bender gave it. */
export const quotedForm = (units: ShopUnits) =>
  z.object({
    ...answerOf,
    prices: z
      .array(z.object({ quantity: wholeText({ min: 1, max: 1_000_000 }), unitCents: moneyText(units) }))
      .min(1, 'A quote has at least one price')
      .max(12)
      .refine((prices) => new Set(prices.map(({ quantity }) => quantity)).size === prices.length, {
        message: 'Each quantity has one price',
      }),
    toolingCents: moneyText(units),
    setUpCents: moneyText(units),
    minimumOrderCents: moneyText(units),
    freightCents: moneyText(units),
    suppliedCentsPerPiece: moneyText(units),
    leadTimeDays: workingDaysText,
    validUntil: orEmpty(dayText),
    offeredRadiusMm: orEmpty(lengthText(units, { min: 1, max: 100_000 })),
    conditionsText: plainText({ max: 2000 }),
    expectedRejectPct: decimalText({ min: 0, max: 90, unit: '%' }),
    replacesRejects: z.boolean(),
  })
export type Quoted = z.output<ReturnType<typeof quotedForm>>
export type QuotedTyped = z.input<ReturnType<typeof quotedForm>>

export const declinedForm = z.object({
  ...answerOf,
  declineReason: plainText({ min: 1, max: 500, empty: 'Why did they decline?' }),
})
export type Declined = z.output<typeof declinedForm>

/** Chased once more, or given up on as silent. */
export const chasedForm = z.object({ id: idText, version: versionField, chaseOn: dayText })
export type Chased = z.output<typeof chasedForm>
export const silentForm = z.object({ id: idText, version: versionField })
export type Silent = z.output<typeof silentForm>

export const noteForm = z.object({ id: idText, version: versionField, notesText: plainText({ max: 2000 }) })
export type AskNote = z.output<typeof noteForm>
export type SendAsksTyped = z.input<typeof sendAsksForm>

/** How an order that went to them came out. */
export const orderedForm = z
  .object({
    id: idText,
    version: versionField,
    orderedOn: dayText,
    orderedQuantity: wholeText({ min: 1, max: 1_000_000 }),
    promisedOn: orEmpty(dayText),
    deliveredOn: orEmpty(dayText),
    rejectedQuantity: orEmpty(wholeText({ min: 0, max: 1_000_000 })),
  })
  .refine(({ orderedOn, deliveredOn }) => deliveredOn === null || deliveredOn >= orderedOn, {
    path: ['deliveredOn'],
    message: 'Delivered before it was ordered',
  })
  .refine(
    ({ orderedQuantity, rejectedQuantity }) =>
      rejectedQuantity === null || rejectedQuantity <= orderedQuantity,
    { path: ['rejectedQuantity'], message: 'More turned away than were ordered' },
  )
export type Ordered = z.output<typeof orderedForm>
export type OrderedTyped = z.input<typeof orderedForm>
