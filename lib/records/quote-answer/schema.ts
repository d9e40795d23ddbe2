import { z } from 'zod'
import { idText, orEmpty, plainText, versionField, wholeText } from '@/lib/records/fields'

const answerer = {
  token: z.string().min(20).max(100),
  name: plainText({ min: 2, max: 120, empty: 'Your name' }),
  note: plainText({ max: 2000 }),
}

/** The customer's answer on the link, posted as plain fields: `quantity-17` is what is wanted of line 17, empty for none. */
export const acceptForm = z.looseObject(answerer).transform(({ token, name, note, ...rest }, context) => {
  const choices: { lineId: number; quantity: number }[] = []
  for (const [field, typed] of Object.entries(rest)) {
    const lineId = /^quantity-([1-9]\d{0,8})$/.exec(field)?.[1]
    if (lineId === undefined || typed === '') continue
    const quantity = wholeText({ min: 1, max: 100_000 }).safeParse(typed)
    if (quantity.success) choices.push({ lineId: Number(lineId), quantity: quantity.data })
    else
      context.addIssue({
        code: 'custom',
        path: [field],
        message: quantity.error.issues[0]?.message ?? 'Type a whole number',
      })
  }
  if (choices.length === 0 && context.issues.length === 0) {
    context.addIssue({
      code: 'custom',
      path: ['choices'],
      message: 'Choose a quantity for at least one part',
    })
  }
  return { token, name, note, choices }
})
export type Acceptance = z.output<typeof acceptForm>

export const declineForm = z.object(answerer)

export const openedForm = z.object({ token: answerer.token })
export type Decline = z.output<typeof declineForm>

/** A yes that came another way than by the link: an order by mail, a call. */
export const wonForm = z
  .object({
    id: idText,
    version: versionField,
    name: plainText({ min: 2, max: 120, empty: 'Who said yes?' }),
    note: plainText({ max: 2000 }),
    choices: z
      .array(z.object({ lineId: idText, quantity: orEmpty(wholeText({ min: 1, max: 100_000 })) }))
      .max(50),
  })
  .transform(({ choices, ...rest }, context) => {
    const chosen = choices.flatMap(({ lineId, quantity }) =>
      quantity === null ? [] : [{ lineId, quantity }],
    )
    if (chosen.length === 0)
      context.addIssue({
        code: 'custom',
        path: ['choices', 0, 'quantity'],
        message: 'How many do they take?',
      })
    return { ...rest, choices: chosen }
  })
export type Won = z.output<typeof wonForm>
export type WonTyped = z.input<typeof wonForm>
