import { z } from 'zod'
import { operationKeys } from '@/lib/core/cost/operation'
import { readDuration } from '@/lib/core/typed/duration'
import { homeWays } from '@/lib/records/estimate/rules'
import { rateOverrideForm } from '@/lib/records/estimate-rate/schema'
import {
  decimalText,
  idText,
  lengthText,
  moneyText,
  plainText,
  type ShopUnits,
  wholeText,
} from '@/lib/records/fields'

/** A shop of short runs; longer ones are another kind of work and another kind of estimate. */
const mostPieces = 2000
const mostQuantities = 6

/** '1, 6, 20' as quantities, smallest first, each once. */
export const quantitiesText: z.ZodType<number[], string> = z.string().transform((text, context) => {
  const words = text.split(/[\s,;/]+/).filter((word) => word !== '')
  const refuse = (message: string) => {
    context.addIssue({ code: 'custom', message })
    return z.NEVER
  }
  if (words.length === 0) return refuse('Type how many, such as 1, 6, 20')
  if (words.some((word) => !/^\d{1,6}$/.test(word))) return refuse('Type whole numbers, such as 1, 6, 20')
  const counts = [...new Set(words.map(Number))].sort((one, other) => one - other)
  if ((counts[0] ?? 0) < 1 || (counts.at(-1) ?? 0) > mostPieces)
    return refuse(`Allowed: 1 to ${mostPieces} pieces`)
  if (counts.length > mostQuantities) return refuse(`At most ${mostQuantities} quantities at once`)
  return counts
})

/** Minutes as people type them: 25, 1h20, 1.5 h. */
const minutesText: z.ZodType<number, string> = z.string().transform((text, context) => {
  const read = readDuration(text)
  if (read.ok && read.durationMinutes >= 0 && read.durationMinutes <= 10_000) return read.durationMinutes
  context.addIssue({ code: 'custom', message: read.ok ? 'Allowed: 0 to 10000 min' : read.message })
  return z.NEVER
})

export const overrideFields = ['setUpMinutes', 'runMinutesPerPiece', 'elapsedMinutes'] as const

/** A time set by hand. Left empty, the ends of its range are the time itself. */
const overrideForm = z
  .object({
    operationKey: z.enum(operationKeys),
    field: z.enum(overrideFields),
    low: z.string(),
    likely: minutesText,
    high: z.string(),
    reason: plainText({ min: 3, max: 300, empty: 'Say why: it stands beside the number' }),
  })
  .transform(({ low, likely, high, ...rest }, context) => {
    const end = (name: 'low' | 'high', text: string) => {
      if (text.trim() === '') return likely
      const read = minutesText.safeParse(text)
      if (!read.success)
        context.addIssue({ code: 'custom', path: [name], message: read.error.issues[0]?.message ?? '' })
      else if (name === 'low' ? read.data > likely : read.data < likely)
        context.addIssue({
          code: 'custom',
          path: [name],
          message: name === 'low' ? 'Above the likely time' : 'Below the likely time',
        })
      else return read.data
      return likely
    }
    return { ...rest, value: { low: end('low', low), likely, high: end('high', high) } }
  })

const toolForm = z.object({
  key: plainText({ min: 1, max: 60 }),
  charge: z.enum(['job', 'spread', 'none']),
  overJobs: wholeText({ min: 1, max: 1000 }),
})

const barForm = (units: ShopUnits) =>
  z.object({
    lengthMm: lengthText(units, { min: 10, max: 20_000 }),
    priceCents: moneyText(units, { min: 0, max: 10_000_000 }),
  })

/** An estimate as it is typed. `mark` is what it was made from; another one meanwhile refuses the save. */
export const estimateForm = (units: ShopUnits) =>
  z
    .object({
      revisionId: idText,
      mark: z.string().max(64),
      way: z.enum(homeWays),
      quantities: quantitiesText,
      yieldPct: decimalText({ min: 5, max: 100, unit: '%' }),
      yieldReason: plainText({ max: 300 }),
      holeCount: wholeText({ min: 0, max: 500 }),
      weldedEndCount: wholeText({ min: 0, max: 2 }),
      dyePenetrant: z.boolean(),
      buyable: z.array(barForm(units)).max(4, 'At most 4 lengths'),
      tools: z.array(toolForm).max(12),
      overrides: z.array(overrideForm).max(80),
      rateOverrides: z.array(rateOverrideForm(units)).max(80),
      pricingBy: z.enum(['margin', 'markup']),
      pricingPct: decimalText({ min: 0, max: 1000, unit: '%' }),
    })
    .superRefine(({ pricingBy, pricingPct, overrides, rateOverrides }, context) => {
      if (pricingBy === 'margin' && pricingPct > 95)
        context.addIssue({
          code: 'custom',
          path: ['pricingPct'],
          message: 'A margin is a share of the price: at most 95 %',
        })
      const seen = new Set<string>()
      overrides.forEach(({ operationKey, field }, index) => {
        const name = `${operationKey} ${field}`
        if (seen.has(name))
          context.addIssue({ code: 'custom', path: ['overrides', index, 'likely'], message: 'Set twice' })
        seen.add(name)
      })
      rateOverrides.forEach(({ path }, index) => {
        if (seen.has(path))
          context.addIssue({ code: 'custom', path: ['rateOverrides', index, 'likely'], message: 'Set twice' })
        seen.add(path)
      })
    })
    .transform(({ yieldPct, tools, pricingBy, pricingPct, ...rest }) => ({
      ...rest,
      yieldFraction: Number((yieldPct / 100).toPrecision(12)),
      tools: Object.fromEntries(tools.map(({ key, charge, overJobs }) => [key, { charge, overJobs }])),
      pricing: { by: pricingBy, ppm: Math.round(pricingPct * 10_000) },
    }))

export type EstimateTyped = z.input<ReturnType<typeof estimateForm>>
export type EstimateChange = z.output<ReturnType<typeof estimateForm>>

/** Takes an estimate into a quote: an open draft of the customer's, or a new one where none is named. */
export const quoteEstimateForm = z
  .object({
    estimateId: idText,
    quoteId: z.string(),
    pricingBy: z.enum(['margin', 'markup']),
    pricingPct: decimalText({ min: 0, max: 1000, unit: '%' }),
  })
  .superRefine(({ pricingBy, pricingPct }, context) => {
    if (pricingBy === 'margin' && pricingPct > 95)
      context.addIssue({
        code: 'custom',
        path: ['pricingPct'],
        message: 'A margin is a share of the price: at most 95 %',
      })
  })
  .transform(({ estimateId, quoteId, pricingBy, pricingPct }, context) => {
    const quote = quoteId === '' ? null : idText.safeParse(quoteId)
    if (quote && !quote.success) {
      context.addIssue({ code: 'custom', path: ['quoteId'], message: 'Choose one' })
      return z.NEVER
    }
    return {
      estimateId,
      quoteId: quote?.data ?? null,
      pricing: { by: pricingBy, ppm: Math.round(pricingPct * 10_000) },
    }
  })
export type QuoteEstimate = z.output<typeof quoteEstimateForm>
