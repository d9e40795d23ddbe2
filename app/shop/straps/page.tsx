import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { formatLength, formatStress } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import { readShop } from '@/lib/records/shop/read'
import { readStraps } from '@/lib/records/tooling/read'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Straps' }

export default async function StrapsPage() {
  const actor = await requireActor('tooling.read')
  const [shop, straps] = await Promise.all([readShop(), readStraps({ retired: true })])
  const length = (mm: number) => formatLength(mm, shop.lengthUnit)
  const stressUnit = shopUnits[shop.lengthUnit].stress
  const add = may(actor, 'tooling.write') && (
    <LinkButton kind="primary" href="/shop/straps/new">
      Add a strap
    </LinkButton>
  )
  return (
    <>
      <PageHead title="Straps" actions={add} />
      <DataTable
        caption="Backing straps"
        captionHidden
        rows={straps}
        rowKey={(strap) => String(strap.id)}
        rowHref={(strap) => `/shop/straps/${strap.id}`}
        empty={
          <Empty title="No strap yet">
            A steel strap behind the tube takes some of the stretch off its outer face.
          </Empty>
        }
        columns={[
          {
            key: 'number',
            head: 'Strap',
            title: true,
            cell: (strap) => strap.shopNumber,
          },
          {
            key: 'thick',
            head: 'Thickness',
            cell: (strap) => length(strap.thicknessMm),
          },
          {
            key: 'wide',
            head: 'Width',
            cell: (strap) => length(strap.widthMm),
          },
          {
            key: 'long',
            head: 'Length',
            cell: (strap) => length(strap.lengthMm),
          },
          {
            key: 'yield',
            head: 'Yield',
            cell: (strap) => formatStress(strap.yieldMPa, { unit: stressUnit }),
          },
          { key: 'place', head: 'Place', cell: (strap) => strap.place || '–' },
          {
            key: 'state',
            head: 'State',
            cell: (strap) => (strap.retiredAt ? 'out of use' : 'in use'),
          },
        ]}
      />
    </>
  )
}
