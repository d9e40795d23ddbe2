import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { PageHead } from '@/app/_ui/page-head'
import { readShop } from '@/lib/records/shop/read'
import { typedLength, typedNumber } from '@/lib/records/shop/rules'
import { readSource } from '@/lib/records/source/read'
import { requireActor } from '@/lib/server/session'
import { SourceForm } from '../../source-form'

export const metadata: Metadata = { title: 'Change a bender' }

export default async function EditSourcePage({ params }: { params: Promise<{ id: string }> }) {
  await requireActor('source.write')
  const id = rowId((await params).id)
  const source = id === null ? null : await readSource(id)
  if (!source) notFound()
  const { lengthUnit, currency } = await readShop()
  const { archivedAt: _away, history: _history, ...facts } = source
  return (
    <>
      <PageHead
        title={`Change ${source.name}`}
        trail={[
          { label: 'Benders', href: '/sources' },
          { label: source.name, href: `/sources/${source.id}` },
        ]}
      />
      <SourceForm
        units={{ lengthUnit, currency }}
        source={{
          ...facts,
          minimumRadiusRatio: typedNumber(facts.minimumRadiusRatio),
          maximumSizeMm: typedLength(facts.maximumSizeMm, lengthUnit),
        }}
      />
    </>
  )
}
