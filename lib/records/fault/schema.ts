import { z } from 'zod'
import { dispositions } from '@/lib/core/inspection/disposition'
import { idText, plainText, versionField } from '@/lib/records/fields'

export const faultForm = z.object({
  jobId: idText,
  /** Empty: the fault is of the whole job. */
  pieceId: z.union([z.literal('').transform(() => null), idText], 'Choose one'),
  /** Empty: the fault is not of one bend. */
  bendPosition: z.union([z.literal('').transform(() => null), z.coerce.number().int().min(1)], 'Choose one'),
  description: plainText({ min: 3, max: 1000, empty: 'Say what is wrong' }),
})

export type FaultInput = z.output<typeof faultForm>

export const decideForm = z.object({
  id: idText,
  version: versionField,
  disposition: z.enum(dispositions, 'Choose one'),
  whyText: plainText({ min: 3, max: 1000, empty: 'Say why, and within what limits' }),
  /** For scrap: the tube that the replacement is cut from. */
  stockPieceId: z.union([z.literal('').transform(() => null), idText], 'Choose one'),
})

export type FaultDecision = z.output<typeof decideForm>
