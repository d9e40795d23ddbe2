import { z } from 'zod'
import { plainText } from '@/lib/records/fields'

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

export const newPinText: z.ZodType<string, string> = z.string().regex(/^\d{4,8}$/, 'Four to eight digits')

export const roleChoice = z.enum(['owner', 'office', 'bench'])

export const personName = plainText({ min: 1, max: 80, empty: 'What is the person called?' })
