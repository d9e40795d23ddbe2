import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { PressForm } from '../press-form'

export const metadata: Metadata = { title: 'Add a press' }

const start = {
  shopNumber: '',
  name: '',
  capacityKn: '',
  strokeMm: '',
  supportNoseRadiusMm: '',
  supportFrictionCoeff: '',
  minimumSpanMm: '',
  maximumSpanMm: '',
  notesText: '',
}

export default async function NewPressPage() {
  await requireActor('tooling.write')
  const { lengthUnit, currency } = await readShop()
  const trail = [{ label: 'Presses', href: '/shop/presses' }]
  return (
    <>
      <PageHead title="Add a press" trail={trail} />
      <PressForm units={{ lengthUnit, currency }} start={start} />
    </>
  )
}
