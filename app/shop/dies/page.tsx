import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { formatAngle, formatLength } from '@/lib/core/format'
import { readShop } from '@/lib/records/shop/read'
import { readDies } from '@/lib/records/tooling/read'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Dies' }

export default async function DiesPage() {
  const actor = await requireActor('tooling.read')
  const [shop, dies] = await Promise.all([readShop(), readDies({ retired: true })])
  const length = (mm: number | null) => (mm === null ? '–' : formatLength(mm, shop.lengthUnit))
  const add = may(actor, 'tooling.write') && (
    <LinkButton kind="primary" href="/shop/dies/new">
      Add a die
    </LinkButton>
  )
  return (
    <>
      <PageHead title="Dies" actions={add} />
      <DataTable
        caption="Dies"
        captionHidden
        rows={dies}
        rowKey={(die) => String(die.id)}
        rowHref={(die) => `/shop/dies/${die.id}`}
        empty={<Empty title="No die yet">A bend spec without a die says which die to make.</Empty>}
        columns={[
          {
            key: 'number',
            head: 'Die',
            title: true,
            cell: (die) => die.shopNumber,
          },
          {
            key: 'radius',
            head: 'Surface radius',
            cell: (die) => length(die.surfaceRadiusMm),
          },
          {
            key: 'groove',
            head: 'Groove',
            cell: (die) => length(die.grooveWidthMm),
          },
          {
            key: 'arc',
            head: 'Arc',
            cell: (die) => (die.arcDeg === null ? '–' : formatAngle(die.arcDeg)),
          },
          { key: 'place', head: 'Place', cell: (die) => die.place || '–' },
          {
            key: 'state',
            head: 'State',
            cell: (die) => (die.retiredAt ? 'out of use' : 'in use'),
          },
        ]}
      />
    </>
  )
}
