import { z } from 'zod'

/** Nothing to type: the press itself is the intention. */
export const exportPress = z.object({})
