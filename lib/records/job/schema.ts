import { z } from 'zod'
import { wayKeys } from '@/lib/core/cost/ways'
import { dayText, idText, versionField, wholeText } from '@/lib/records/fields'

/** A job that no quote stands behind. */
export const jobForm = z.object({
  revisionId: idText,
  quantity: wholeText({ min: 1, max: 2000 }),
  dueOn: dayText,
  /** Empty: the way of the part's set-up. */
  way: z.union([z.literal(''), z.enum(wayKeys)], 'Choose one'),
})

export type JobInput = z.output<typeof jobForm>

export const jobDueForm = z.object({ id: idText, version: versionField, dueOn: dayText })

export type JobDue = z.output<typeof jobDueForm>

export const jobPress = z.object({ id: idText, version: versionField })

export type JobPress = z.output<typeof jobPress>

/** The traveller's next issue. Without a way: in the one that holds by now. */
export const reissueForm = z.object({
  id: idText,
  version: versionField,
  way: z.enum(wayKeys, 'Choose one').optional(),
})

export type Reissue = z.output<typeof reissueForm>
