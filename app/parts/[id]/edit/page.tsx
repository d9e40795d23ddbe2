import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { readCustomerChoices } from '@/lib/records/customer/read'
import { readMaterialChoices, readPart } from '@/lib/records/part/read'
import { nextRevisionLetter, typedPart } from '@/lib/records/part/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { PartForm } from '../../part-form'

export const metadata: Metadata = { title: 'Change a part' }

export default async function EditPartPage({ params }: { params: Promise<{ id: string }> }) {
  await requireActor('part.write')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  if (!part) notFound()
  const [shop, customers, materials] = await Promise.all([
    readShop(),
    readCustomerChoices(part.customer.id),
    readMaterialChoices(),
  ])
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const { newest } = part
  const next = newest.frozenAt ? nextRevisionLetter(newest.letter) : null
  const identity = { customerId: part.customer.id, name: part.name, customerRef: part.customerRef }
  return (
    <>
      <PageHead
        kind={`Part ${part.number}, revision ${newest.letter}`}
        title={`Change ${part.name}`}
        trail={[
          { label: 'Parts', href: '/parts' },
          { label: part.name, href: `/parts/${part.id}` },
        ]}
      />
      {next !== null && (
        <Notice title={`Saving makes revision ${next}`}>
          Revision {newest.letter} was quoted or put on a job and stays as it is.
        </Notice>
      )}
      <PartForm
        start={typedPart(identity, newest, units)}
        saved={{ id: part.id, version: part.version }}
        units={units}
        customers={customers}
        materials={materials}
        saveLabel={next === null ? 'Save the part' : `Make revision ${next}`}
      />
    </>
  )
}
