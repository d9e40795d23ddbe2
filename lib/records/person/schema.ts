import { z } from 'zod'
import { idText, plainText, versionField } from '@/lib/records/fields'

/** What is typed to sign in: kept in lower case. */
export const loginText: z.ZodType<string, string> = z
  .string()
  .trim()
  .toLowerCase()
  .min(2, 'At least 2 characters')
  .max(60, 'At most 60 characters')
  .regex(/^[a-z0-9][a-z0-9._@-]*$/, 'Letters, digits and . _ - @ only, beginning with a letter or digit')

/** Length is what makes a password hard to guess; no rule asks for odd characters. Source: NIST SP 800-63B, 5.1.1. */
export const newPasswordText: z.ZodType<string, string> = z
  .string()
  .min(10, 'At least 10 characters: three or four words do well')
  .max(200, 'At most 200 characters')

/** Empty for none. Kept in lower case, so that one address is one person's. */
const emailText: z.ZodType<string | null, string> = z
  .string()
  .trim()
  .toLowerCase()
  .max(254, 'Too long for an e-mail address')
  .refine((text) => text === '' || z.email().safeParse(text).success, 'This is no e-mail address')
  .transform((text) => text || null)

const typedPassword = z.string().min(1, 'Type your password').max(200, 'Too long for a password')
const personName = plainText({ min: 1, max: 80, empty: 'What is the person called?' })
export const roleChoice = z.enum(['owner', 'office', 'bench'])

export const inviteForm = z.object({
  name: personName,
  login: loginText,
  role: roleChoice,
  email: emailText,
})
export type Invite = z.output<typeof inviteForm>

export const personForm = z.object({
  id: idText,
  version: versionField,
  name: personName,
  login: loginText,
  role: roleChoice,
  email: emailText,
})
export type PersonChange = z.output<typeof personForm>

/** One press about one person: end or restore an account, make a new link. */
export const personPress = z.object({ id: idText })
export type PersonPress = z.output<typeof personPress>

/** Asked for by whoever has forgotten a password: the sign-in name or the e-mail address. */
export const forgottenForm = z.object({
  who: z.string().trim().toLowerCase().min(1, 'Type your sign-in name').max(254, 'Too long'),
})
export type Forgotten = z.output<typeof forgottenForm>

const repeated = { path: ['again'], message: 'The two are not the same' }

export const welcomeForm = z
  .object({
    token: z.string().min(20).max(100),
    password: newPasswordText,
    passwordAgain: z.string().max(200),
  })
  .refine(({ password, passwordAgain }) => password === passwordAgain, {
    ...repeated,
    path: ['passwordAgain'],
  })
export type Welcome = z.output<typeof welcomeForm>

export const ownPasswordForm = z
  .object({ current: typedPassword, next: newPasswordText, again: z.string().max(200) })
  .refine(({ next, again }) => next === again, repeated)
export type OwnPassword = z.output<typeof ownPasswordForm>

/** Digits so plain that they are the first to be tried. */
function isPlainPin(pin: string): boolean {
  const steps = [...pin].slice(1).map((digit, index) => Number(digit) - Number(pin[index]))
  return new Set(steps).size === 1 && Math.abs(steps[0] ?? 9) <= 1
}

export const ownPinForm = z
  .object({
    current: typedPassword,
    pin: z
      .string()
      .regex(/^\d{4,8}$/, 'Four to eight digits')
      .refine((pin) => !isPlainPin(pin), 'Too easy to guess: not all the same, not 1 2 3 4'),
    again: z.string().max(8),
  })
  .refine(({ pin, again }) => pin === again, repeated)
export type OwnPin = z.output<typeof ownPinForm>
