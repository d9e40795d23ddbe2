import { z } from 'zod'
import { idText, plainText } from '@/lib/records/fields'

/** No rule is told at signing in: what does not fit simply fits no account. */
export const signInForm = z.object({
  login: z
    .string()
    .trim()
    .toLowerCase()
    .min(1, 'Type your sign-in name')
    .max(200, 'Too long for a sign-in name'),
  password: z.string().min(1, 'Type your password').max(200, 'Too long for a password'),
  then: z.string().max(2000).optional(),
})

export type SignIn = z.output<typeof signInForm>

export const pinSignInForm = z.object({
  userId: idText,
  pin: z.string().min(1, 'Type your PIN').max(20, 'Too long for a PIN'),
  then: z.string().max(2000).optional(),
})

export type PinSignIn = z.output<typeof pinSignInForm>

export const endSessionForm = z.object({ tokenHash: z.string().regex(/^[0-9a-f]{64}$/, 'No such session') })

export const admitDeviceForm = z.object({
  name: plainText({ min: 1, max: 60, empty: 'Give the device a name, such as Bench tablet' }),
})
export type AdmitDevice = z.output<typeof admitDeviceForm>

export const devicePress = z.object({ id: idText })
