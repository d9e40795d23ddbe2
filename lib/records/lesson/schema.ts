import { z } from 'zod'
import { operationKeys } from '@/lib/core/cost/operation'
import { idText, plainText } from '@/lib/records/fields'

export const lessonKinds = ['springbackFactor', 'firstTry', 'operationMinutes'] as const
export type LessonKindName = (typeof lessonKinds)[number]

/** What one job taught of one thing, taken in or left out. */
export const lessonForm = z.object({
  jobId: idText,
  kind: z.enum(lessonKinds),
  method: plainText({ max: 80 }),
  operationKey: z.union([z.literal(''), z.enum(operationKeys)]),
  accept: z.boolean(),
})

export type LessonDecision = z.output<typeof lessonForm>
