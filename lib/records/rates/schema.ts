import { z } from 'zod'
import { defaultShopRates, type ShopRates } from '@/lib/core/cost/shop-rates'
import { decimalText, lengthText, moneyText, plainText, type ShopUnits } from '@/lib/records/fields'
import { type RateKind, rateKind } from '@/lib/records/rates/rules'

/** Whole in the shop's money, or whole pieces: a fraction of one has no meaning. */
const wholeNames = /^(piecesPerFilling)$/

/** The field of one number of the rates, by what it is. */
export function rateField(kind: RateKind, units: ShopUnits): z.ZodType<unknown, string> {
  switch (kind.is) {
    case 'money':
      return moneyText(units)
    case 'percent': {
      const isPpm = kind.scale < 1
      return decimalText({ min: kind.min, max: kind.max, unit: '%' }).transform((percent) => {
        const value = Number((percent / kind.scale).toPrecision(12))
        return isPpm ? Math.round(value) : value
      })
    }
    case 'length':
      return lengthText(units, { min: 0, max: 10_000 })
    case 'number':
      return decimalText(kind)
    case 'choice':
      return z.enum(kind.choices.map(({ value }) => value))
  }
}

type Node = { readonly [key: string]: Node | number | string }

/** A schema of the same form as the rates, with a text for every number. */
function ratesSchema(node: Node, units: ShopUnits, path: readonly string[] = []): z.ZodType {
  const shape = Object.fromEntries(
    Object.entries(node).map(([key, value]): [string, z.ZodType] => {
      const here = [...path, key]
      if (typeof value === 'object') return [key, ratesSchema(value, units, here)]
      const field = rateField(rateKind(here), units)
      return [
        key,
        wholeNames.test(key)
          ? field.refine((count) => Number.isInteger(count), 'Type a whole number')
          : field,
      ]
    }),
  )
  const object = z.object(shape)
  if (!('likely' in shape)) return object
  return object.superRefine((point, context) => {
    const { low, likely, high } = point as { low: number; likely: number; high: number }
    if (low > likely) context.addIssue({ code: 'custom', path: ['low'], message: 'Above the likely value' })
    if (high < likely) context.addIssue({ code: 'custom', path: ['high'], message: 'Below the likely value' })
  })
}

/** What is typed has the tree of ShopRates with texts at its ends. */
export function ratesForm(units: ShopUnits) {
  return z.object({
    baseId: z.number().int().positive(),
    reasonText: plainText({ min: 3, max: 300, empty: 'Say in a few words why the rates change' }),
    rates: ratesSchema(defaultShopRates as unknown as Node, units) as unknown as z.ZodType<
      ShopRates,
      Record<string, unknown>
    >,
  })
}

export type RatesChange = z.output<ReturnType<typeof ratesForm>>
