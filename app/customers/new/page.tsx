import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { requireActor } from '@/lib/server/session'
import { CustomerForm } from '../customer-form'

export const metadata: Metadata = { title: 'New customer' }

export default async function NewCustomerPage() {
  await requireActor('customer.write')
  return (
    <>
      <PageHead title="New customer" trail={[{ label: 'Customers', href: '/customers' }]} />
      <CustomerForm />
    </>
  )
}
