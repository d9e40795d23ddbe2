import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { PageHead } from '@/app/_ui/page-head'
import { Facts } from '@/app/_ui/section'
import { formatAngle, formatLength } from '@/lib/core/format'
import { readShop } from '@/lib/records/shop/read'
import { typedLength, typedNumber } from '@/lib/records/shop/rules'
import { readDie } from '@/lib/records/tooling/read'
import { may, requireActor } from '@/lib/server/session'
import { RetirePress } from '../../retire-press'
import { DieForm } from '../die-form'

export const metadata: Metadata = { title: 'Die' }

export default async function DiePage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('tooling.read')
  const id = rowId((await params).id)
  const [{ lengthUnit, currency }, die] = await Promise.all([readShop(), id === null ? null : readDie(id)])
  if (!die) notFound()
  const trail = [{ label: 'Dies', href: '/shop/dies' }]
  const mayWrite = may(actor, 'tooling.write')
  return (
    <>
      <PageHead
        kind="Die"
        title={`${die.shopNumber}, ${formatLength(die.surfaceRadiusMm, lengthUnit)}`}
        trail={trail}
        actions={mayWrite && <RetirePress kind="die" tool={die} />}
      >
        {die.retiredAt ? 'Out of use: no new set-up can choose it.' : undefined}
      </PageHead>
      {mayWrite ? (
        <DieForm
          units={{ lengthUnit, currency }}
          saved={{ id: die.id, version: die.version }}
          start={{
            shopNumber: die.shopNumber,
            surfaceRadiusMm: typedLength(die.surfaceRadiusMm, lengthUnit),
            grooveWidthMm: typedLength(die.grooveWidthMm, lengthUnit),
            arcDeg: typedNumber(die.arcDeg),
            place: die.place,
            notesText: die.notesText,
          }}
        />
      ) : (
        <Facts
          facts={[
            ['Surface radius', formatLength(die.surfaceRadiusMm, lengthUnit)],
            ['Groove width', die.grooveWidthMm === null ? '–' : formatLength(die.grooveWidthMm, lengthUnit)],
            ['Arc', die.arcDeg === null ? '–' : formatAngle(die.arcDeg)],
            ['Place', die.place || '–'],
            ['Notes', die.notesText || '–'],
          ]}
        />
      )}
    </>
  )
}
