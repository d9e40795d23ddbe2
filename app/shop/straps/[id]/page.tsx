import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { PageHead } from '@/app/_ui/page-head'
import { Facts } from '@/app/_ui/section'
import { formatLength, formatStress } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import { readShop } from '@/lib/records/shop/read'
import { typedLength, typedNumber } from '@/lib/records/shop/rules'
import { readStrap } from '@/lib/records/tooling/read'
import { may, requireActor } from '@/lib/server/session'
import { RetirePress } from '../../retire-press'
import { StrapForm } from '../strap-form'

export const metadata: Metadata = { title: 'Strap' }

export default async function StrapPage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('tooling.read')
  const id = rowId((await params).id)
  const [{ lengthUnit, currency }, strap] = await Promise.all([
    readShop(),
    id === null ? null : readStrap(id),
  ])
  if (!strap) notFound()
  const size = [strap.thicknessMm, strap.widthMm].map((mm) => formatLength(mm, lengthUnit)).join(' × ')
  const trail = [{ label: 'Straps', href: '/shop/straps' }]
  const mayWrite = may(actor, 'tooling.write')
  return (
    <>
      <PageHead
        kind="Strap"
        title={`${strap.shopNumber}, ${size}`}
        trail={trail}
        actions={mayWrite && <RetirePress kind="strap" tool={strap} />}
      >
        {strap.retiredAt ? 'Out of use: no new set-up can choose it.' : undefined}
      </PageHead>
      {mayWrite ? (
        <StrapForm
          units={{ lengthUnit, currency }}
          saved={{ id: strap.id, version: strap.version }}
          start={{
            shopNumber: strap.shopNumber,
            thicknessMm: typedLength(strap.thicknessMm, lengthUnit),
            widthMm: typedLength(strap.widthMm, lengthUnit),
            lengthMm: typedLength(strap.lengthMm, lengthUnit),
            yieldMPa: `${typedNumber(strap.yieldMPa)} MPa`,
            frictionCoeff: typedNumber(strap.frictionCoeff),
            place: strap.place,
            notesText: strap.notesText,
          }}
        />
      ) : (
        <Facts
          facts={[
            ['Size', `${size} × ${formatLength(strap.lengthMm, lengthUnit)}`],
            [
              'Yield strength',
              formatStress(strap.yieldMPa, {
                unit: shopUnits[lengthUnit].stress,
              }),
            ],
            ['Place', strap.place || '–'],
            ['Notes', strap.notesText || '–'],
          ]}
        />
      )}
    </>
  )
}
