import { z } from 'zod'
import {
  decimalText,
  lengthText,
  plainText,
  type ShopUnits,
  versionField,
  wholeText,
} from '@/lib/records/fields'
import { loginText, newPasswordText } from '@/lib/records/person/schema'
import { mostLogoBytes } from '@/lib/records/shop/rules'

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

/** The shop's letterhead, how it writes numbers, tax and the few settings that every bend spec takes. */
export function shopForm(units: ShopUnits) {
  return z.object({
    version: versionField,
    name: shopName,
    addressText: plainText({ max: 400 }),
    contactText: plainText({ max: 400 }),
    currency: currencyText,
    lengthUnit: z.enum(['in', 'mm']),
    paper: z.enum(['letter', 'a4']),
    timeZone: timeZoneText,
    taxName: plainText({ max: 40 }),
    taxPpm: decimalText({ min: 0, max: 50, unit: '%' }).transform((percent) => Math.round(percent * 10_000)),
    quoteValidDays: wholeText({ min: 1, max: 365 }),
    quoteTermsText: plainText({ max: 4000 }),
    pressUseFraction: decimalText({ min: 10, max: 100, unit: '%' }).transform((percent) =>
      Number((percent / 100).toPrecision(12)),
    ),
    gripMm: lengthText(units, { min: 0, max: 1000 }),
    trimMm: lengthText(units, { min: 0, max: 1000 }),
    kerfMm: lengthText(units, { min: 0, max: 20 }),
  })
}

export type ShopChange = z.output<ReturnType<typeof shopForm>>

/** The picture at the head of the papers that go out. */
export const logoForm = z
  .instanceof(FormData, { message: 'Choose a picture' })
  .transform((typed) => ({ file: typed.get('file') as File }))
  .pipe(
    z.object({
      file: z
        .instanceof(File, { message: 'Choose a picture' })
        .refine((file) => file.size > 0, 'The file is empty, or none was chosen')
        .refine((file) => file.size <= mostLogoBytes, {
          error: ({ input }) =>
            `At most 1 MB, as every paper carries it; this one has ${((input as File).size / 1_000_000).toFixed(1)} MB`,
        }),
    }),
  )
export type LogoUpload = z.output<typeof logoForm>

export const logoPress = z.object({})
