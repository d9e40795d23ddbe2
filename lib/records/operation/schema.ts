import { z } from 'zod'
import { idText } from '@/lib/records/fields'

export const operationDone = z.object({ id: idText, done: z.boolean() })
