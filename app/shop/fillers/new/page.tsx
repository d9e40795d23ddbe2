import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/_ui/page-head'
import { defaultFiller } from '@/lib/core/materials/fillers'
import { readFillerTable } from '@/lib/records/filler-alloy/read'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { fillerChoices } from '../filler-choices'
import { FillerForm } from '../filler-form'

export const metadata: Metadata = { title: 'Add a pot' }

type Asked = { searchParams: Promise<{ of?: string | string[] }> }

export default async function NewFillerPage({ searchParams }: Asked) {
  await requireActor('tooling.write')
  const { of } = await searchParams
  const [{ lengthUnit, currency }, table] = await Promise.all([readShop(), readFillerTable()])
  const trail = [{ label: 'Fillers', href: '/shop/fillers' }]
  const start = {
    shopNumber: '',
    name: '',
    fillerId: table.find(({ filler }) => filler.id === of)?.filler.id ?? defaultFiller.id,
    lotText: '',
    densityKgM3: '',
    yieldMPa: '',
    modulusMPa: '',
    priceCentsPerKg: '',
    notesText: '',
  }
  return (
    <>
      <PageHead title="Add a pot" trail={trail}>
        Of an alloy in the list. One that is not in it is{' '}
        <Link href="/materials/fillers/new">added first</Link>.
      </PageHead>
      <FillerForm units={{ lengthUnit, currency }} choices={fillerChoices(table)} start={start} />
    </>
  )
}
