import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { SearchBox } from '@/app/_ui/search-box'
import { SectionNav } from '@/app/_ui/section-nav'
import { formatLength } from '@/lib/core/format'
import { readShop } from '@/lib/records/shop/read'
import { anyLot, type ListedLot, readLots } from '@/lib/records/stock/read'
import { rackWords, sizeWords } from '@/lib/records/stock/rules'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Stock' }

type Asked = { searchParams: Promise<{ q?: string; page?: string; show?: string }> }

const totalMm = (lot: ListedLot) => lot.pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)

export default async function StockPage({ searchParams }: Asked) {
  const actor = await requireActor('stock.read')
  const [shop, asked] = await Promise.all([readShop(), searchParams])
  const search = String(asked.q ?? '')
    .trim()
    .slice(0, 100)
  const page = Math.min(Math.max(Math.trunc(Number(asked.page ?? 1)) || 1, 1), 100_000)
  const usedUp = asked.show === 'used'
  const { lots, pageCount } = await readLots({ search, lengthUnit: shop.lengthUnit, page, usedUp })
  const address = (to: { page?: number; used?: boolean; all?: boolean }) => {
    const query = new URLSearchParams()
    if (search && !to.all) query.set('q', search)
    if (to.used) query.set('show', 'used')
    if (to.page && to.page > 1) query.set('page', String(to.page))
    return query.size > 0 ? `/stock?${query}` : '/stock'
  }
  const receive = may(actor, 'stock.write') && (
    <LinkButton kind="primary" href="/stock/new">
      Receive a lot
    </LinkButton>
  )
  return (
    <>
      <PageHead
        title="Stock"
        actions={
          <>
            <LinkButton href="/materials">Materials</LinkButton>
            <LinkButton href="/stock/nest">Plan the cutting</LinkButton>
            {receive}
          </>
        }
      />
      <div className="stack">
        <SearchBox
          label="Find by alloy, size, heat number or place"
          action="/stock"
          defaultValue={search}
          placeholder={shop.lengthUnit === 'in' ? '6061 1.5 x 1/8' : '6061 40 x 3'}
          keep={{ show: usedUp ? 'used' : undefined }}
        />
        <SectionNav
          label="Which lots"
          links={[
            { href: address({}), label: 'On the rack', current: !usedUp },
            { href: address({ used: true }), label: 'Used up', current: usedUp },
          ]}
        />
        <DataTable
          caption="Lots by material and size"
          captionHidden
          rows={lots}
          rowKey={(lot) => String(lot.id)}
          rowHref={(lot) => `/stock/${lot.id}`}
          empty={<NothingHere search={search} usedUp={usedUp} any={await anyLot()} receive={receive} />}
          columns={[
            {
              key: 'number',
              head: 'Lot',
              title: true,
              cell: (lot) => <span className="mono">{lot.number}</span>,
            },
            { key: 'material', head: 'Material', cell: (lot) => lot.materialId },
            { key: 'size', head: 'Size', cell: (lot) => sizeWords(lot, shop.lengthUnit) },
            {
              key: 'heat',
              head: 'Heat',
              cell: (lot) => (lot.heatNumber ? <span className="mono">{lot.heatNumber}</span> : 'not noted'),
            },
            { key: 'rack', head: 'On the rack', cell: (lot) => rackWords(lot.pieces, shop.lengthUnit) },
            {
              key: 'total',
              head: 'In all',
              cell: (lot) => (usedUp ? '–' : formatLength(totalMm(lot), shop.lengthUnit)),
            },
            {
              key: 'reserved',
              head: 'Reserved',
              cell: (lot) => {
                const count = lot.pieces.filter((piece) => piece.reservedForJobId !== null).length
                return count === 0 ? 'none' : `${count} of ${lot.pieces.length}`
              },
            },
            { key: 'place', head: 'Place', cell: (lot) => lot.place || '–' },
          ]}
        />
        <Pager page={page} pageCount={pageCount} hrefFor={(to) => address({ page: to, used: usedUp })} />
      </div>
    </>
  )
}

function NothingHere(props: { search: string; usedUp: boolean; any: boolean; receive: React.ReactNode }) {
  const { search, usedUp, any, receive } = props
  if (search) {
    return (
      <Empty
        title={`No lot fits “${search}”`}
        action={<LinkButton href={usedUp ? '/stock?show=used' : '/stock'}>Show all</LinkButton>}
      >
        Words and sizes are looked for all at once: type fewer of them.
      </Empty>
    )
  }
  if (usedUp) return <Empty title="No lot is used up" />
  return (
    <Empty title={any ? 'The rack is empty' : 'No stock yet'} action={receive}>
      Tube that is received here with its heat number can be reserved for a job, and every piece made of it
      leads back to its certificate.
    </Empty>
  )
}
