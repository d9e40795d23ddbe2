import '../../parts/part.css'
import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { formatDate } from '@/lib/core/format'
import { readCustomer, readCustomerRecords } from '@/lib/records/customer/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { archiveCustomerAction, restoreCustomerAction } from '../actions'
import { PutAway } from '../put-away'

type Asked = { params: Promise<{ id: string }> }

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('customer.read')
  const id = rowId((await params).id)
  return { title: (id === null ? null : await readCustomer(id))?.name ?? 'Customer' }
}

export default async function CustomerPage({ params }: Asked) {
  const actor = await requireActor('customer.read')
  const id = rowId((await params).id)
  const customer = id === null ? null : await readCustomer(id)
  if (!customer) notFound()
  const [shop, { counts, parts, quotes, jobs }] = await Promise.all([
    readShop(),
    readCustomerRecords(customer.id),
  ])
  const day = (at: Date) =>
    formatDate(at.toISOString().slice(0, 10), { locale: 'en-US', timeZone: shop.timeZone })
  const writes = may(actor, 'customer.write')
  const archived = customer.archivedAt !== null
  const actions = writes && (
    <>
      {!archived && (
        <LinkButton kind="primary" href={`/parts/new?customer=${customer.id}`}>
          New part
        </LinkButton>
      )}
      <LinkButton href={`/customers/${customer.id}/edit`}>Change</LinkButton>
    </>
  )
  return (
    <>
      <PageHead
        kind="Customer"
        title={customer.name}
        trail={[{ label: 'Customers', href: '/customers' }]}
        actions={actions}
      />
      {archived && (
        <Notice title="Put away">
          It no longer stands in lists and choices. Its parts, quotes and jobs are kept.
        </Notice>
      )}
      <div className="stack stack-loose">
        <div className="split">
          <Section title="People there">
            <DataTable
              caption="Contacts"
              captionHidden
              rows={customer.contacts}
              rowKey={(contact) => String(contact.id)}
              empty={<p className="muted">Nobody entered yet.</p>}
              columns={[
                { key: 'name', head: 'Name', title: true, cell: (contact) => contact.name },
                { key: 'role', head: 'What they do', cell: (contact) => contact.roleText || '–' },
                {
                  key: 'email',
                  head: 'E-mail',
                  cell: (contact) =>
                    contact.email ? <a href={`mailto:${contact.email}`}>{contact.email}</a> : '–',
                },
                {
                  key: 'phone',
                  head: 'Phone',
                  cell: (contact) =>
                    contact.phone ? (
                      <a className="nowrap" href={`tel:${contact.phone.replace(/[^+\d]/g, '')}`}>
                        {contact.phone}
                      </a>
                    ) : (
                      '–'
                    ),
                },
              ]}
            />
          </Section>
          <Section title="Address and notes">
            <Facts
              facts={[
                [
                  'Address',
                  <span key="address" className="typed-lines">
                    {customer.addressText || '–'}
                  </span>,
                ],
                [
                  'Notes',
                  <span key="notes" className="typed-lines">
                    {customer.notesText || '–'}
                  </span>,
                ],
              ]}
            />
          </Section>
        </div>
        <Section
          title="Parts"
          aside={
            counts.parts > parts.length && (
              <LinkButton kind="quiet" href={`/parts?customer=${customer.id}`}>
                All {counts.parts}
              </LinkButton>
            )
          }
        >
          <DataTable
            caption="This customer’s latest parts"
            captionHidden
            rows={parts}
            rowKey={(part) => String(part.id)}
            rowHref={(part) => `/parts/${part.id}`}
            empty={<p className="muted">No part yet.</p>}
            columns={[
              { key: 'name', head: 'Part', title: true, cell: (part) => part.name },
              { key: 'number', head: 'Number', cell: (part) => <span className="mono">{part.number}</span> },
              { key: 'ref', head: 'Their number', cell: (part) => part.customerRef || '–' },
              { key: 'revision', head: 'Revision', cell: (part) => part.revisions[0]?.letter ?? '–' },
              { key: 'state', head: 'State', cell: (part) => (part.archivedAt ? 'put away' : 'in use') },
            ]}
          />
        </Section>
        <div className="split split-even">
          <Section title="Quotes">
            <DataTable
              caption="This customer’s latest quotes"
              captionHidden
              rows={quotes}
              rowKey={(quote) => String(quote.id)}
              rowHref={(quote) => `/quotes/${quote.id}`}
              empty={<p className="muted">No quote yet.</p>}
              columns={[
                { key: 'number', head: 'Quote', title: true, cell: (quote) => quote.number },
                { key: 'state', head: 'State', cell: (quote) => quote.status },
                { key: 'until', head: 'Valid until', cell: (quote) => day(quote.validUntil) },
              ]}
            />
          </Section>
          <Section title="Jobs">
            <DataTable
              caption="This customer’s latest jobs"
              captionHidden
              rows={jobs}
              rowKey={(job) => String(job.id)}
              rowHref={(job) => `/jobs/${job.id}`}
              empty={<p className="muted">No job yet.</p>}
              columns={[
                { key: 'number', head: 'Job', title: true, cell: (job) => job.number },
                { key: 'state', head: 'State', cell: (job) => job.status },
                { key: 'pieces', head: 'Pieces', numeric: true, cell: (job) => job.quantity },
                { key: 'due', head: 'Due', cell: (job) => day(job.dueOn) },
              ]}
            />
          </Section>
        </div>
        {writes && (
          <PutAway
            what="customer"
            record={{ id: customer.id, version: customer.version }}
            archived={archived}
            archive={archiveCustomerAction}
            restore={restoreCustomerAction}
          />
        )}
      </div>
    </>
  )
}
