import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { SourceForm } from '../source-form'

export const metadata: Metadata = { title: 'New bender' }

export default async function NewSourcePage() {
  await requireActor('source.write')
  const { lengthUnit, currency } = await readShop()
  return (
    <>
      <PageHead title="New outside bender" trail={[{ label: 'Benders', href: '/sources' }]} />
      <SourceForm units={{ lengthUnit, currency }} />
    </>
  )
}
