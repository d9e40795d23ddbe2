import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { readMaterialChoices } from '@/lib/records/part/read'
import { dayInZone } from '@/lib/records/quote/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { LotForm } from '../lot-form'

export const metadata: Metadata = { title: 'Receive a lot' }

export default async function NewLotPage() {
  await requireActor('stock.write')
  const [shop, materials] = await Promise.all([readShop(), readMaterialChoices()])
  const today = dayInZone(new Date(), shop.timeZone).toISOString().slice(0, 10)
  return (
    <>
      <PageHead title="Receive a lot" trail={[{ label: 'Stock', href: '/stock' }]}>
        One material in one size from one heat. What differs in any of these is another lot.
      </PageHead>
      <LotForm
        units={{ lengthUnit: shop.lengthUnit, currency: shop.currency }}
        materials={materials}
        start={{
          materialId: '',
          shape: 'square',
          widthMm: '',
          heightMm: '',
          wallMm: '',
          cornerRadiusMm: '',
          heatNumber: '',
          supplierText: '',
          receivedOn: today,
          priceCents: '',
          pricedBy: shop.lengthUnit === 'in' ? 'ft' : 'm',
          place: '',
          certificateYieldMPa: '',
          certificateTensileMPa: '',
          certificateElongationPct: '',
          bars: [{ barCount: '1', lengthMm: '' }],
        }}
      />
    </>
  )
}
