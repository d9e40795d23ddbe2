import type { Metadata } from 'next'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { readCustomerChoices } from '@/lib/records/customer/read'
import { readMaterialChoices } from '@/lib/records/part/read'
import { emptyPart } from '@/lib/records/part/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { PartForm } from '../part-form'

export const metadata: Metadata = { title: 'New part' }

export default async function NewPartPage({
  searchParams,
}: {
  searchParams: Promise<{ customer?: string }>
}) {
  await requireActor('part.write')
  const customerId = rowId(String((await searchParams).customer ?? ''))
  const [shop, customers, materials] = await Promise.all([
    readShop(),
    readCustomerChoices(),
    readMaterialChoices(),
  ])
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const known = customers.some(({ id }) => id === customerId)
  return (
    <>
      <PageHead title="New part" trail={[{ label: 'Parts', href: '/parts' }]} />
      {customers.length === 0 ? (
        <Empty
          title="A part belongs to a customer, and there is none yet"
          action={
            <LinkButton kind="primary" href="/customers/new">
              New customer
            </LinkButton>
          }
        />
      ) : (
        <PartForm
          start={{ ...emptyPart(units), customerId: known ? String(customerId) : '' }}
          units={units}
          customers={customers}
          materials={materials}
          saveLabel="Add the part"
        />
      )}
    </>
  )
}
