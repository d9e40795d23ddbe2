import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { alloyById } from '@/lib/core/materials/alloys'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { MaterialForm } from '../material-form'
import { emptyAlloy, typedAlloy } from '../typed-alloy'

export const metadata: Metadata = { title: 'Add a material' }

type Asked = { searchParams: Promise<{ over?: string }> }

export default async function NewMaterialPage({ searchParams }: Asked) {
  await requireActor('material.write')
  const [shop, { over }] = await Promise.all([readShop(), searchParams])
  const table = over === undefined ? undefined : alloyById(String(over))
  return (
    <>
      <PageHead
        title={table ? `The shop’s own values for ${table.id}` : 'Add a material'}
        trail={[
          { label: 'Stock', href: '/stock' },
          { label: 'Materials', href: '/materials' },
        ]}
      />
      <MaterialForm
        units={{ lengthUnit: shop.lengthUnit, currency: shop.currency }}
        start={
          table
            ? { ...typedAlloy(table, shop.lengthUnit), sourceText: '', overTable: true }
            : { ...emptyAlloy, overTable: false }
        }
      />
    </>
  )
}
