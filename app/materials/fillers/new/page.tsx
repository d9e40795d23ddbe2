import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { FillerAlloyForm } from '../filler-alloy-form'
import { emptyFiller } from '../typed-filler'

export const metadata: Metadata = { title: 'Add a filler' }

export default async function NewFillerAlloyPage() {
  await requireActor('material.write')
  const { lengthUnit, currency } = await readShop()
  return (
    <>
      <PageHead
        title="Add a filler"
        trail={[
          { label: 'Materials', href: '/materials' },
          { label: 'Fillers', href: '/materials/fillers' },
        ]}
      >
        A low-melt alloy that the table has not. Then say in which pot it is.
      </PageHead>
      <FillerAlloyForm units={{ lengthUnit, currency }} start={emptyFiller} />
    </>
  )
}
