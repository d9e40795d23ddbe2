import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { StrapForm } from '../strap-form'

export const metadata: Metadata = { title: 'Add a strap' }

const start = {
  shopNumber: '',
  thicknessMm: '',
  widthMm: '',
  lengthMm: '',
  yieldMPa: '',
  frictionCoeff: '',
  place: '',
  notesText: '',
}

export default async function NewStrapPage() {
  await requireActor('tooling.write')
  const { lengthUnit, currency } = await readShop()
  const trail = [{ label: 'Straps', href: '/shop/straps' }]
  return (
    <>
      <PageHead title="Add a strap" trail={trail} />
      <StrapForm units={{ lengthUnit, currency }} start={start} />
    </>
  )
}
