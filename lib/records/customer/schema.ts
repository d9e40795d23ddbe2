import { z } from 'zod'
import { idText, plainText, versionField } from '@/lib/records/fields'

const email = z
  .string()
  .trim()
  .max(200, 'At most 200 characters')
  .refine((text) => text === '' || /^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(text), 'Not an e-mail address')

export const contactForm = z.object({
  name: plainText({ min: 1, max: 80, empty: 'Who is it?' }),
  roleText: plainText({ max: 80 }),
  email,
  phone: plainText({ max: 40 }),
})

const customerFields = {
  name: plainText({ min: 1, max: 120, empty: 'What is the customer called?' }),
  addressText: plainText({ max: 500 }),
  notesText: plainText({ max: 2000 }),
  contacts: z.array(contactForm).max(40, 'At most 40 people'),
}

export const newCustomerForm = z.object(customerFields)
export type NewCustomer = z.output<typeof newCustomerForm>

export const customerForm = z.object({ id: idText, version: versionField, ...customerFields })
export type CustomerTyped = z.input<typeof customerForm>
export type CustomerChange = z.output<typeof customerForm>

/** One press about one customer: put it away or bring it back. */
export const customerPress = z.object({ id: idText, version: versionField })
export type CustomerPress = z.output<typeof customerPress>
