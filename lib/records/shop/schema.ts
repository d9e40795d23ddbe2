import { z } from 'zod'
import { plainText } from '@/lib/records/fields'
import { loginText, newPasswordText } from '@/lib/records/person/schema'

/** Currencies offered first; any other of ISO 4217 can be typed by its code in the settings. */
export const offeredCurrencies = [
  'USD',
  'CAD',
  'EUR',
  'GBP',
  'AUD',
  'NZD',
  'NOK',
  'SEK',
  'DKK',
  'CHF',
  'JPY',
] as const

function isTimeZone(name: string): boolean {
  return name === 'UTC' || Intl.supportedValuesOf('timeZone').includes(name)
}

export const timeZoneText: z.ZodType<string, string> = z
  .string()
  .trim()
  .refine(isTimeZone, 'Choose a time zone, such as America/New_York')

export const currencyText: z.ZodType<string, string> = z
  .string()
  .trim()
  .toUpperCase()
  .refine(
    (code) => Intl.supportedValuesOf('currency').includes(code),
    'A currency is three letters, such as USD',
  )

const shopName = plainText({ min: 1, max: 80, empty: 'What is the shop called?' })

/** The first form of all: the shop, its owner, and whether to begin with the demo shop. */
export const setUpForm = z.object({
  key: z.string().max(200),
  name: shopName,
  currency: currencyText,
  lengthUnit: z.enum(['in', 'mm']),
  paper: z.enum(['letter', 'a4']),
  timeZone: timeZoneText,
  ownerName: plainText({ min: 1, max: 80, empty: 'What are you called?' }),
  login: loginText,
  password: newPasswordText,
  begin: z.enum(['demo', 'empty']),
})

export type SetUp = z.output<typeof setUpForm>
