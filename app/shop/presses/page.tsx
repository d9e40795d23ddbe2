import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { formatForce, formatLength } from '@/lib/core/format'
import { readShop } from '@/lib/records/shop/read'
import { readPresses } from '@/lib/records/tooling/read'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Presses' }

export default async function PressesPage() {
  const actor = await requireActor('tooling.read')
  const [shop, presses] = await Promise.all([readShop(), readPresses({ retired: true })])
  const length = (mm: number) => formatLength(mm, shop.lengthUnit)
  const add = may(actor, 'tooling.write') && (
    <LinkButton kind="primary" href="/shop/presses/new">
      Add a press
    </LinkButton>
  )
  return (
    <>
      <PageHead title="Presses" actions={add} />
      <DataTable
        caption="Presses"
        captionHidden
        rows={presses}
        rowKey={(press) => String(press.id)}
        rowHref={(press) => `/shop/presses/${press.id}`}
        empty={<Empty title="No press yet">A bend spec needs one: its force, supports and spans.</Empty>}
        columns={[
          {
            key: 'number',
            head: 'Press',
            title: true,
            cell: (press) => `${press.shopNumber} ${press.name}`,
          },
          {
            key: 'force',
            head: 'Force',
            cell: (press) => forceInWords(press.capacityKn),
          },
          {
            key: 'stroke',
            head: 'Stroke',
            cell: (press) => (press.strokeMm === null ? 'not known' : length(press.strokeMm)),
          },
          {
            key: 'span',
            head: 'Spans',
            cell: (press) => `${length(press.minimumSpanMm)} to ${length(press.maximumSpanMm)}`,
          },
          {
            key: 'state',
            head: 'State',
            cell: (press) => (press.retiredAt ? 'out of use' : 'in use'),
          },
        ]}
      />
    </>
  )
}

/** In both, because a plate may say either. */
function forceInWords(forceKn: number): string {
  const kilonewtons = formatForce(forceKn, { unit: 'kN', decimals: 0 })
  return `${kilonewtons} (${formatForce(forceKn, { unit: 'usShort', decimals: 1 })})`
}
