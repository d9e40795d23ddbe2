import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { DieForm } from '../die-form'

export const metadata: Metadata = { title: 'Add a die' }

export default async function NewDiePage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>
}) {
  await requireActor('tooling.write')
  const [{ lengthUnit, currency }, asked] = await Promise.all([readShop(), searchParams])
  const trail = [{ label: 'Dies', href: '/shop/dies' }]
  // A bend spec that asks for a die to be made leads here with the radius in the address.
  const surfaceRadiusMm = typeof asked.radius === 'string' ? asked.radius.slice(0, 40) : ''
  return (
    <>
      <PageHead title="Add a die" trail={trail} />
      <DieForm
        units={{ lengthUnit, currency }}
        start={{
          shopNumber: '',
          surfaceRadiusMm,
          grooveWidthMm: '',
          arcDeg: '',
          place: '',
          notesText: '',
        }}
      />
    </>
  )
}
