import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { SearchBox } from '@/app/_ui/search-box'
import { SectionNav } from '@/app/_ui/section-nav'
import { readCustomers } from '@/lib/records/customer/read'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Customers' }

type Asked = { searchParams: Promise<{ q?: string; page?: string; show?: string }> }

export default async function CustomersPage({ searchParams }: Asked) {
  const actor = await requireActor('customer.read')
  const asked = await searchParams
  const search = String(asked.q ?? '')
    .trim()
    .slice(0, 100)
  const page = Math.min(Math.max(Math.trunc(Number(asked.page ?? 1)) || 1, 1), 100_000)
  const archived = asked.show === 'archived'
  const { customers, pageCount } = await readCustomers({ search, page, archived })
  const add = may(actor, 'customer.write') && (
    <LinkButton kind="primary" href="/customers/new">
      New customer
    </LinkButton>
  )
  const address = (to: { page?: number; show?: string }) => {
    const query = new URLSearchParams()
    if (search) query.set('q', search)
    if (to.show) query.set('show', to.show)
    if (to.page && to.page > 1) query.set('page', String(to.page))
    return query.size > 0 ? `/customers?${query}` : '/customers'
  }
  return (
    <>
      <PageHead title="Customers" actions={add} />
      <div className="stack">
        <SearchBox
          label="Find by name, contact or place"
          action="/customers"
          defaultValue={search}
          keep={{ show: archived ? 'archived' : undefined }}
        />
        <SectionNav
          label="Which customers"
          links={[
            { href: address({}), label: 'In use', current: !archived },
            { href: address({ show: 'archived' }), label: 'Put away', current: archived },
          ]}
        />
        <DataTable
          caption="Customers by name"
          captionHidden
          rows={customers}
          rowKey={(customer) => String(customer.id)}
          rowHref={(customer) => `/customers/${customer.id}`}
          empty={
            <Empty
              title={
                search ? `No customer fits “${search}”` : archived ? 'None is put away' : 'No customer yet'
              }
              action={
                search ? (
                  <LinkButton href={address({}).split('?')[0] ?? '/customers'}>Show all</LinkButton>
                ) : (
                  add
                )
              }
            >
              {!search &&
                !archived &&
                'A part, a quote and a job belong to a customer: enter the first one here.'}
            </Empty>
          }
          columns={[
            { key: 'name', head: 'Customer', title: true, cell: (customer) => customer.name },
            { key: 'contact', head: 'Contact', cell: (customer) => customer.contacts[0]?.name ?? '–' },
            { key: 'phone', head: 'Phone', cell: (customer) => customer.contacts[0]?.phone || '–' },
            { key: 'parts', head: 'Parts', numeric: true, cell: (customer) => customer.counts.parts },
            { key: 'quotes', head: 'Quotes', numeric: true, cell: (customer) => customer.counts.quotes },
            { key: 'jobs', head: 'Jobs', numeric: true, cell: (customer) => customer.counts.jobs },
          ]}
        />
        <Pager
          page={page}
          pageCount={pageCount}
          hrefFor={(next) => address({ page: next, show: archived ? 'archived' : undefined })}
        />
      </div>
    </>
  )
}
