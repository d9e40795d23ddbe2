import { z } from 'zod'
import { idText, lengthText, type ShopUnits, versionField } from '@/lib/records/fields'

export const supportKinds = ['hollow', 'sand', 'lowMelt'] as const

export const supportWords = {
  hollow: 'hollow',
  sand: 'packed with sand',
  lowMelt: 'filled with low-melt alloy',
} as const satisfies Record<(typeof supportKinds)[number], string>

const maybeId: z.ZodType<number | null, string> = z
  .string()
  .regex(/^([1-9]\d{0,9})?$/, 'Choose one')
  .transform((text) => (text === '' ? null : Number(text)))
  .refine((id) => id === null || id <= 2_147_483_647, 'Choose one')

/** `version` is the set-up's, 0 where none was saved before; no die means one is to be made. */
export const setupForm = (units: ShopUnits) =>
  z.object({
    revisionId: idText,
    version: versionField,
    support: z.enum(supportKinds, 'Choose what goes in the bore'),
    pressId: idText,
    supportSpanMm: lengthText(units, { min: 20, max: 10_000 }),
    dieId: maybeId,
    strapId: maybeId,
    fillerId: maybeId,
  })

export type SetupTyped = z.input<ReturnType<typeof setupForm>>
export type SetupChoice = z.output<ReturnType<typeof setupForm>>
