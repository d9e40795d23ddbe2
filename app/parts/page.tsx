import type { Metadata } from 'next'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { SearchBox } from '@/app/_ui/search-box'
import { SectionNav } from '@/app/_ui/section-nav'
import { type PartState, readParts } from '@/lib/records/part/read'
import { tubeText } from '@/lib/records/part/rules'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Parts' }

const states: readonly { show: PartState | null; label: string }[] = [
  { show: null, label: 'All' },
  { show: 'open', label: 'Not frozen yet' },
  { show: 'quoted', label: 'Quoted or on a job' },
  { show: 'archived', label: 'Put away' },
]

type Asked = { searchParams: Promise<{ q?: string; page?: string; show?: string; customer?: string }> }

export default async function PartsPage({ searchParams }: Asked) {
  const actor = await requireActor('part.read')
  const asked = await searchParams
  const search = String(asked.q ?? '')
    .trim()
    .slice(0, 100)
  const page = Math.min(Math.max(Math.trunc(Number(asked.page ?? 1)) || 1, 1), 100_000)
  const state = states.find(({ show }) => show === asked.show)?.show ?? null
  const customerId = rowId(String(asked.customer ?? '')) ?? undefined
  const [shop, { parts, pageCount }] = await Promise.all([
    readShop(),
    readParts({ search, page, state, customerId }),
  ])
  const unit = shop.lengthUnit
  const customer = customerId === undefined ? undefined : String(customerId)
  const address = (to: { page?: number; show: PartState | null }) => {
    const query = new URLSearchParams()
    if (search) query.set('q', search)
    if (customer) query.set('customer', customer)
    if (to.show) query.set('show', to.show)
    if (to.page && to.page > 1) query.set('page', String(to.page))
    return query.size > 0 ? `/parts?${query}` : '/parts'
  }
  const narrowed = search !== '' || state !== null || customer !== undefined
  const add = may(actor, 'part.write') && (
    <LinkButton kind="primary" href={customer ? `/parts/new?customer=${customer}` : '/parts/new'}>
      New part
    </LinkButton>
  )
  return (
    <>
      <PageHead title="Parts" actions={add} />
      <div className="stack">
        <SearchBox
          label="Find by number, name or customer"
          action="/parts"
          defaultValue={search}
          keep={{ show: state ?? undefined, customer }}
        />
        <SectionNav
          label="Which parts"
          links={states.map(({ show, label }) => ({
            href: address({ show }),
            label,
            current: show === state,
          }))}
        />
        <DataTable
          caption="Parts, newest first"
          captionHidden
          rows={parts}
          rowKey={(part) => String(part.id)}
          rowHref={(part) => `/parts/${part.id}`}
          empty={
            narrowed ? (
              <Empty title="No part fits" action={<LinkButton href="/parts">Show all parts</LinkButton>} />
            ) : (
              <Empty title="No part yet" action={add}>
                A part is entered from the customer’s drawing: tube, bends, ends, tolerances.
              </Empty>
            )
          }
          columns={[
            { key: 'name', head: 'Part', title: true, cell: (part) => part.name },
            { key: 'number', head: 'Number', cell: (part) => <span className="mono">{part.number}</span> },
            { key: 'customer', head: 'Customer', cell: (part) => part.customer.name },
            { key: 'ref', head: 'Their number', cell: (part) => part.customerRef || '–' },
            {
              key: 'tube',
              head: 'Tube',
              cell: (part) => (part.revisions[0] ? tubeText(part.revisions[0], unit) : '–'),
            },
            { key: 'material', head: 'Material', cell: (part) => part.revisions[0]?.materialId ?? '–' },
            {
              key: 'bends',
              head: 'Bends',
              numeric: true,
              cell: (part) => part.revisions[0]?.bends.length ?? 0,
            },
            {
              key: 'revision',
              head: 'Revision',
              cell: (part) =>
                `${part.revisions[0]?.letter ?? '–'}${part.revisions[0]?.frozenAt ? ', frozen' : ''}`,
            },
          ]}
        />
        <Pager page={page} pageCount={pageCount} hrefFor={(next) => address({ page: next, show: state })} />
      </div>
    </>
  )
}
