import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { PageHead } from '@/app/_ui/page-head'
import { readCustomer } from '@/lib/records/customer/read'
import { requireActor } from '@/lib/server/session'
import { CustomerForm } from '../../customer-form'

export const metadata: Metadata = { title: 'Change a customer' }

export default async function EditCustomerPage({ params }: { params: Promise<{ id: string }> }) {
  await requireActor('customer.write')
  const id = rowId((await params).id)
  const customer = id === null ? null : await readCustomer(id)
  if (!customer) notFound()
  const { archivedAt: _away, contacts, ...facts } = customer
  return (
    <>
      <PageHead
        title={`Change ${customer.name}`}
        trail={[
          { label: 'Customers', href: '/customers' },
          { label: customer.name, href: `/customers/${customer.id}` },
        ]}
      />
      <CustomerForm customer={{ ...facts, contacts: contacts.map(({ id: _id, ...contact }) => contact) }} />
    </>
  )
}
