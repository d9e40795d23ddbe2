import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { defaultFiller } from '@/lib/core/materials/fillers'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { FillerForm } from '../filler-form'

export const metadata: Metadata = { title: 'Add a pot' }

export default async function NewFillerPage() {
  await requireActor('tooling.write')
  const { lengthUnit, currency } = await readShop()
  const trail = [{ label: 'Fillers', href: '/shop/fillers' }]
  const start = {
    shopNumber: '',
    name: '',
    fillerId: defaultFiller.id,
    lotText: '',
    densityKgM3: '',
    yieldMPa: '',
    modulusMPa: '',
    priceCentsPerKg: '',
    notesText: '',
  }
  return (
    <>
      <PageHead title="Add a pot" trail={trail} />
      <FillerForm units={{ lengthUnit, currency }} start={start} />
    </>
  )
}
