'use server'

import { customerForm, customerPress, newCustomerForm } from '@/lib/records/customer/schema'
import { addCustomer, archiveCustomer, changeCustomer, restoreCustomer } from '@/lib/records/customer/write'
import { formAction } from '@/lib/server/action'

export const addCustomerAction = formAction('customer.write', newCustomerForm, (input, actor) =>
  addCustomer(input, actor),
)
export const changeCustomerAction = formAction('customer.write', customerForm, (input, actor) =>
  changeCustomer(input, actor),
)
export const archiveCustomerAction = formAction('customer.write', customerPress, (input, actor) =>
  archiveCustomer(input, actor),
)
export const restoreCustomerAction = formAction('customer.write', customerPress, (input, actor) =>
  restoreCustomer(input, actor),
)
