import { z } from 'zod'
import { idText, plainText, versionField } from '@/lib/records/fields'

const which = { id: idText, version: versionField }

export const closeForm = z.object({
  ...which,
  /** Needed only where something is left undone. */
  whyText: plainText({ max: 500 }),
})
export type CloseJob = z.output<typeof closeForm>

export const cancelForm = z.object({
  ...which,
  whyText: plainText({ min: 3, max: 500, empty: 'Say why it is cancelled' }),
})
export type CancelJob = z.output<typeof cancelForm>
