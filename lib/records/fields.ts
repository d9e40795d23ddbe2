import { z } from 'zod'
import { formatAngle, formatLength, formatMoney } from '@/lib/core/format'
import { readAngle } from '@/lib/core/typed/angle'
import { readLength } from '@/lib/core/typed/length'
import { readMoney } from '@/lib/core/typed/money'
import { readNumber } from '@/lib/core/typed/number'
import type { LengthUnit } from '@/lib/core/units'

/** How the shop writes what it types without a unit: given to every form schema that needs it. */
export type ShopUnits = { readonly lengthUnit: LengthUnit; readonly currency: string }

type Range = { readonly min: number; readonly max: number }

/** Text of a person's, trimmed; control characters but line ends and tabs are refused. */
export function plainText(limits: { min?: number; max: number; empty?: string }): z.ZodType<string, string> {
  return z
    .string()
    .trim()
    .max(limits.max, `At most ${limits.max} characters`)
    .min(limits.min ?? 0, limits.empty ?? 'Fill this in')
    .refine(
      (text) => !/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/.test(text),
      'Holds a character that cannot be printed',
    )
}

function typed(
  check: (text: string, refuse: (message: string) => void) => number,
): z.ZodType<number, string> {
  return z.string().transform((text, context) => {
    let refused = false
    const value = check(text, (message) => {
      refused = true
      context.addIssue({ code: 'custom', message })
    })
    return refused ? z.NEVER : value
  })
}

/** 1-1/2 in and 38.1 mm are one length: what binary fractions leave of 1.5 times 25.4 is cut off. */
const toNanometre = (lengthMm: number): number => Math.round(lengthMm * 1e6) / 1e6

/** A length as people type it (1-1/2", 38.1 mm, 11 ga), in millimetres. */
export function lengthText(
  units: ShopUnits,
  range: Range,
  options: { gauge?: boolean } = {},
): z.ZodType<number, string> {
  const show = (mm: number) => formatLength(mm, units.lengthUnit)
  return typed((text, refuse) => {
    const read = readLength(text, { defaultUnit: units.lengthUnit, gauge: options.gauge ?? false })
    if (!read.ok) refuse(read.message)
    else if (read.lengthMm < range.min || read.lengthMm > range.max) {
      refuse(`Allowed: ${show(range.min)} to ${show(range.max)}; met: ${show(read.lengthMm)}`)
    } else return toNanometre(read.lengthMm)
    return 0
  })
}

/** An angle as people type it (30, 30°, 30d15'), in degrees. */
export function angleText(range: Range): z.ZodType<number, string> {
  return typed((text, refuse) => {
    const read = readAngle(text)
    if (!read.ok) refuse(read.message)
    else if (read.angleDeg < range.min || read.angleDeg > range.max) {
      refuse(
        `Allowed: ${formatAngle(range.min)} to ${formatAngle(range.max)}; met: ${formatAngle(read.angleDeg)}`,
      )
    } else return read.angleDeg
    return 0
  })
}

/** The unit stands beside the field already; who types it all the same means nothing else. */
export const withoutUnit = (text: string, unit = ''): string => {
  const trimmed = text.trimEnd()
  return unit && trimmed.endsWith(unit) ? trimmed.slice(0, -unit.length) : text
}

/** A plain number with a decimal point or comma. */
export function decimalText(range: Range & { unit?: string }): z.ZodType<number, string> {
  const unit = range.unit ? ` ${range.unit}` : ''
  return typed((text, refuse) => {
    const read = readNumber(withoutUnit(text, range.unit))
    if (!read.ok) refuse(read.message)
    else if (read.value < range.min || read.value > range.max) {
      refuse(`Allowed: ${range.min} to ${range.max}${unit}; met: ${read.value}`)
    } else return read.value
    return 0
  })
}

/** A whole number: quantities, days. */
export function wholeText(range: Range): z.ZodType<number, string> {
  return typed((text, refuse) => {
    const trimmed = text.trim()
    if (!/^[+-]?\d{1,12}$/.test(trimmed)) refuse('Type a whole number')
    else {
      const value = Number(trimmed)
      if (value >= range.min && value <= range.max) return value
      refuse(`Allowed: ${range.min} to ${range.max}; met: ${value}`)
    }
    return 0
  })
}

/** Money as typed, in minor units of the shop's currency. */
export function moneyText(
  units: ShopUnits,
  range: Range = { min: 0, max: 1_000_000_000 },
): z.ZodType<number, string> {
  const show = (cents: number) => formatMoney(cents, { currency: units.currency, locale: 'en-US' })
  return typed((text, refuse) => {
    const read = readMoney(text, units)
    if (!read.ok) refuse(read.message)
    else if (read.amountCents < range.min || read.amountCents > range.max) {
      refuse(`Allowed: ${show(range.min)} to ${show(range.max)}; met: ${show(read.amountCents)}`)
    } else return read.amountCents
    return 0
  })
}

/** Left empty means null; anything else must be what `field` takes. */
export function orEmpty<Value>(field: z.ZodType<Value, string>): z.ZodType<Value | null, string> {
  return z.string().transform((text, context): Value | null => {
    if (text.trim() === '') return null
    const parsed = field.safeParse(text)
    if (parsed.success) return parsed.data
    for (const issue of parsed.error.issues) context.addIssue({ code: 'custom', message: issue.message })
    return z.NEVER
  })
}

/** A calendar day, 2026-03-31, as midnight UTC. */
export const dayText: z.ZodType<Date, string> = z
  .string()
  .trim()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'Pick a day')
  .transform((text, context) => {
    const day = new Date(`${text}T00:00:00Z`)
    if (!Number.isNaN(day.getTime()) && day.toISOString().startsWith(text)) return day
    context.addIssue({ code: 'custom', message: 'There is no such day' })
    return z.NEVER
  })

/** A row's id in a hidden field or a select. */
export const idText: z.ZodType<number, string | number> = z
  .union([z.string().regex(/^[1-9]\d{0,9}$/, 'Choose one'), z.number().int().positive()])
  .transform(Number)
  .refine((id) => id <= 2_147_483_647, 'Choose one')

/** The version a form was opened with: a save over a newer one is refused. */
export const versionField: z.ZodType<number, number> = z.number().int().min(0)

/** What is searched for, taken as itself: the database reads % and _ of a `contains` as "anything". */
export const literalSearch = (text: string): string => text.replace(/[\\%_]/g, '\\$&')
