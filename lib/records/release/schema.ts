import { z } from 'zod'
import { idText, plainText } from '@/lib/records/fields'

export const releaseForm = z.object({
  jobId: idText,
  pieceIds: z.array(idText).min(1, 'Choose the pieces to release').max(2000),
  /** What the releasing person adds to the statement. */
  noteText: plainText({ max: 500 }),
})

export type ReleaseInput = z.output<typeof releaseForm>
