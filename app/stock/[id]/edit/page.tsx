import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { moneyText } from '@/app/_ui/money'
import { PageHead } from '@/app/_ui/page-head'
import { formatLength, formatNumber, formatStress } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import { readMaterialChoices } from '@/lib/records/part/read'
import { readShop } from '@/lib/records/shop/read'
import { readLot } from '@/lib/records/stock/read'
import { requireActor } from '@/lib/server/session'
import { LotForm } from '../../lot-form'

export const metadata: Metadata = { title: 'Change a lot' }

export default async function ChangeLotPage({ params }: { params: Promise<{ id: string }> }) {
  await requireActor('stock.write')
  const id = rowId((await params).id)
  const [shop, lot, materials] = await Promise.all([
    readShop(),
    id === null ? null : readLot(id),
    readMaterialChoices(),
  ])
  if (!lot) notFound()
  const length = (mm: number) => formatLength(mm, { unit: shop.lengthUnit, decimals: 6 })
  const stress = (stressMPa: number | null) =>
    stressMPa === null
      ? ''
      : formatStress(stressMPa, { unit: shopUnits[shop.lengthUnit].stress, decimals: 4 })
  return (
    <>
      <PageHead
        kind={`Lot ${lot.number}`}
        title="Change a lot"
        trail={[
          { label: 'Stock', href: '/stock' },
          { label: lot.number, href: `/stock/${lot.id}` },
        ]}
      />
      <LotForm
        units={{ lengthUnit: shop.lengthUnit, currency: shop.currency }}
        materials={materials}
        saved={{ id: lot.id, version: lot.version }}
        start={{
          materialId: lot.materialId,
          shape: lot.shape,
          widthMm: length(lot.widthMm),
          heightMm: lot.shape === 'rectangular' ? length(lot.heightMm) : '',
          wallMm: length(lot.wallMm),
          cornerRadiusMm: lot.cornerRadiusMm === null ? '' : length(lot.cornerRadiusMm),
          heatNumber: lot.heatNumber,
          supplierText: lot.supplierText,
          receivedOn: lot.receivedOn.toISOString().slice(0, 10),
          priceCents: moneyText(lot.priceCentsPerM, shop.currency),
          pricedBy: 'm',
          place: lot.place,
          certificateYieldMPa: stress(lot.certificateYieldMPa),
          certificateTensileMPa: stress(lot.certificateTensileMPa),
          certificateElongationPct:
            lot.certificateElongationPct === null
              ? ''
              : formatNumber(lot.certificateElongationPct, { decimals: 2 }),
        }}
      />
    </>
  )
}
