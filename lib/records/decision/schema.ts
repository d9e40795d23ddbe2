import { z } from 'zod'
import { wayKeys } from '@/lib/core/cost/ways'
import { dayText, idText, orEmpty, plainText, wholeText } from '@/lib/records/fields'

export const mostPieces = 100_000

/** What is weighed: how many pieces, and by when. */
export const weighQuestion = z.object({
  pieces: wholeText({ min: 1, max: mostPieces }),
  due: orEmpty(dayText),
})

/** 'lowMelt', or 'ask 12' for the answer of a bender. */
const chosenKey = z
  .string()
  .min(1, 'Choose a way or an answer')
  .transform((text, context): { way: (typeof wayKeys)[number]; askId: number | null } => {
    const ask = /^ask ([1-9]\d{0,8})$/.exec(text)
    if (ask) return { way: 'outside', askId: Number(ask[1]) }
    const way = wayKeys.find((key) => key === text && key !== 'outside')
    if (way) return { way, askId: null }
    context.addIssue({ code: 'custom', message: 'Choose a way or an answer' })
    return z.NEVER
  })

export const decideForm = z.object({
  revisionId: idText,
  pieceCount: wholeText({ min: 1, max: mostPieces }),
  dueOn: orEmpty(dayText),
  chosen: chosenKey,
  whyText: plainText({ min: 1, max: 2000, empty: 'Write why: the next person will ask' }),
  /** Mark of the comparison that was on the screen. */
  mark: z.string().max(400),
})

export type Decide = z.output<typeof decideForm>
export type DecideTyped = z.input<typeof decideForm>
