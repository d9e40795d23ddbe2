import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Facts } from '@/app/_ui/section'
import { formatForce, formatLength } from '@/lib/core/format'
import { readShop } from '@/lib/records/shop/read'
import { typedLength, typedNumber } from '@/lib/records/shop/rules'
import { readPress } from '@/lib/records/tooling/read'
import { may, requireActor } from '@/lib/server/session'
import { RetirePress } from '../../retire-press'
import { PressForm } from '../press-form'

export const metadata: Metadata = { title: 'Press' }

export default async function PressPage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('tooling.read')
  const id = rowId((await params).id)
  const [{ lengthUnit, currency }, press] = await Promise.all([
    readShop(),
    id === null ? null : readPress(id),
  ])
  if (!press) notFound()
  const length = (mm: number | null) => typedLength(mm, lengthUnit)
  const show = (mm: number) => formatLength(mm, lengthUnit)
  const trail = [{ label: 'Presses', href: '/shop/presses' }]
  const mayWrite = may(actor, 'tooling.write')
  return (
    <>
      <PageHead
        kind={`Press ${press.shopNumber}`}
        title={press.name}
        trail={trail}
        actions={mayWrite && <RetirePress kind="press" tool={press} />}
      >
        {press.retiredAt ? 'Out of use: no new set-up can choose it.' : undefined}
      </PageHead>
      <Notice kind="caution" title="A tube under load can jump out of the press">
        Stand to the side of the supports, never in line with the tube’s ends, and keep hands out from the
        first touch of the ram on.
      </Notice>
      {mayWrite ? (
        <PressForm
          units={{ lengthUnit, currency }}
          saved={{ id: press.id, version: press.version }}
          start={{
            shopNumber: press.shopNumber,
            name: press.name,
            capacityKn: `${typedNumber(press.capacityKn)} kN`,
            strokeMm: length(press.strokeMm),
            supportNoseRadiusMm: length(press.supportNoseRadiusMm),
            supportFrictionCoeff: typedNumber(press.supportFrictionCoeff),
            minimumSpanMm: length(press.minimumSpanMm),
            maximumSpanMm: length(press.maximumSpanMm),
            notesText: press.notesText,
          }}
        />
      ) : (
        <Facts
          facts={[
            ['Rated force', formatForce(press.capacityKn, { unit: 'kN' })],
            ['Stroke', press.strokeMm === null ? 'not known' : show(press.strokeMm)],
            ['Nose radius of the supports', show(press.supportNoseRadiusMm)],
            ['Spans', `${show(press.minimumSpanMm)} to ${show(press.maximumSpanMm)}`],
            ['Notes', press.notesText || '–'],
          ]}
        />
      )}
    </>
  )
}
