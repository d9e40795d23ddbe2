import { z } from 'zod'
import {
  dayText,
  decimalText,
  idText,
  moneyText,
  orEmpty,
  plainText,
  type ShopUnits,
  versionField,
  wholeText,
} from '@/lib/records/fields'

export const newQuoteForm = z.object({
  customerId: idText,
  revisionIds: z.array(idText).min(1, 'Choose at least one part').max(50, 'At most 50 parts on one quote'),
})
export type NewQuote = z.output<typeof newQuoteForm>

const priceBreak = (units: ShopUnits) =>
  z.object({ quantity: wholeText({ min: 1, max: 100_000 }), unitPrice: moneyText(units) })

const quoteLine = (units: ShopUnits) =>
  z
    .object({
      id: idText,
      description: plainText({ min: 1, max: 500, empty: 'Say what is offered' }),
      leadTimeDays: wholeText({ min: 0, max: 730 }),
      breaks: z.array(priceBreak(units)).min(1, 'At least one quantity').max(12, 'At most 12 quantities'),
    })
    .superRefine((line, context) => {
      const seen = new Set<number>()
      line.breaks.forEach((step, index) => {
        if (seen.has(step.quantity)) {
          context.addIssue({
            code: 'custom',
            path: ['breaks', index, 'quantity'],
            message: `${step.quantity} stands here twice`,
          })
        }
        seen.add(step.quantity)
      })
    })

/** A rate of tax in percent, kept in millionths. */
export const taxText: z.ZodType<number, string> = decimalText({ min: 0, max: 50, unit: '%' }).transform(
  (percent) => Math.round(percent * 10_000),
)

/** The whole draft as it is edited: its lines keep their order, one left out is taken off the quote. */
export const quoteForm = (units: ShopUnits) =>
  z
    .object({
      id: idText,
      version: versionField,
      validUntil: dayText,
      termsText: plainText({ max: 4000 }),
      noteText: plainText({ max: 2000 }),
      taxName: plainText({ max: 40 }),
      taxPpm: taxText,
      lines: z.array(quoteLine(units)).min(1, 'A quote needs a line').max(50, 'At most 50 lines'),
    })
    .refine(({ taxName, taxPpm }) => taxPpm === 0 || taxName !== '', {
      path: ['taxName'],
      message: 'What is the tax called?',
    })
export type QuoteTyped = z.input<ReturnType<typeof quoteForm>>
export type QuoteDraft = z.output<ReturnType<typeof quoteForm>>

export const addLineForm = z.object({ id: idText, version: versionField, revisionId: idText })
export type AddLine = z.output<typeof addLineForm>

export const quotePress = z.object({ id: idText, version: versionField })
export type QuotePress = z.output<typeof quotePress>

export const lostForm = quotePress.extend({
  lostReason: plainText({ min: 3, max: 500, empty: 'Say why, for the next quote' }),
})
export type LostQuote = z.output<typeof lostForm>

export const followUpForm = quotePress.extend({ followUpOn: orEmpty(dayText) })
export type FollowUp = z.output<typeof followUpForm>

export const openJobForm = z.object({ quoteLineId: idText, dueOn: dayText })
export type OpenJob = z.output<typeof openJobForm>
