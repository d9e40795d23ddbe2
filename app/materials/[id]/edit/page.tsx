import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/_ui/page-head'
import { readAlloy } from '@/lib/records/material/read'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { MaterialForm } from '../../material-form'
import { nameInAddress } from '../../name-in-address'
import { typedAlloy } from '../../typed-alloy'

export const metadata: Metadata = { title: 'Change a material' }

export default async function ChangeMaterialPage({ params }: { params: Promise<{ id: string }> }) {
  await requireActor('material.write')
  const id = nameInAddress((await params).id)
  const [shop, found] = await Promise.all([readShop(), id === null ? null : readAlloy(id)])
  const version = found?.alloy.ownVersion ?? null
  if (!found || version === null) notFound()
  const { alloy } = found
  return (
    <>
      <PageHead
        kind="Material of the shop’s own"
        title={`Change ${alloy.id}`}
        trail={[
          { label: 'Materials', href: '/materials' },
          { label: alloy.id, href: `/materials/${encodeURIComponent(alloy.id)}` },
        ]}
      />
      <MaterialForm
        units={{ lengthUnit: shop.lengthUnit, currency: shop.currency }}
        start={typedAlloy(alloy, shop.lengthUnit)}
        version={version}
      />
    </>
  )
}
