import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { Facts, Section } from '@/app/_ui/section'
import { formatDateTime, formatMass, formatPercent } from '@/lib/core/format'
import { readFillerTable } from '@/lib/records/filler-alloy/read'
import { alloyInPot } from '@/lib/records/filler-alloy/rules'
import { readShop } from '@/lib/records/shop/read'
import { readFiller, readFillerLedger } from '@/lib/records/tooling/read'
import { moveWords, notReturnedFraction } from '@/lib/records/tooling/rules'
import { may, requireActor } from '@/lib/server/session'
import { RetirePress } from '../../retire-press'
import { FillerCautions, FillerFacts } from '../filler-cautions'
import { fillerChoices } from '../filler-choices'
import { MoveForm } from '../move-form'
import { PotSection } from '../pot-section'

export const metadata: Metadata = { title: 'Pot of filler' }

export default async function FillerPage({
  params,
  searchParams,
}: {
  params: Promise<{ id: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}) {
  const actor = await requireActor('tooling.read')
  const id = rowId((await params).id)
  const page = rowId(String((await searchParams).page ?? '1')) ?? 1
  const [shop, pot] = await Promise.all([readShop(), id === null ? null : readFiller(id)])
  if (!pot) notFound()
  const ledger = await readFillerLedger(pot.id, page)
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const isInch = shop.lengthUnit === 'in'
  const mass = (massKg: number) => formatMass(massKg, { unit: isInch ? 'lb' : 'kg', decimals: 3 })
  const alloy = alloyInPot(pot)
  const choices = fillerChoices(await readFillerTable())
  const { balance } = pot
  const gone = notReturnedFraction(balance)
  const trail = [{ label: 'Fillers', href: '/shop/fillers' }]
  return (
    <>
      <PageHead
        kind={`Pot ${pot.shopNumber}${alloy ? `, ${alloy.name}` : ''}`}
        title={pot.name}
        trail={trail}
        actions={may(actor, 'tooling.write') && <RetirePress kind="filler" tool={pot} />}
      >
        {pot.retiredAt ? 'Out of use: nothing can be poured from it.' : undefined}
      </PageHead>
      {alloy && <FillerCautions alloy={alloy} unit={shop.lengthUnit} />}
      <Section title="What it holds">
        <Facts
          facts={[
            ['In the pot', mass(balance.inPotKg)],
            ['Poured, not back', mass(Math.max(0, balance.pouredKg - balance.recoveredKg))],
            ['Skimmed or spilt', mass(balance.lostKg)],
            [
              'Not returned, of all poured',
              gone === null
                ? 'nothing was poured yet'
                : `${formatPercent(gone)}, alloy still in tubes counted as gone`,
            ],
          ]}
        />
      </Section>
      {may(actor, 'filler.write') && !pot.retiredAt && (
        <Section title="Enter a move">
          <MoveForm fillerId={pot.id} units={units} />
        </Section>
      )}
      <Section title="Ledger">
        <DataTable
          caption="Ledger, newest first"
          captionHidden
          rows={ledger.lines}
          rowKey={(line) => String(line.id)}
          empty={<p>Nothing was entered yet. Begin with what you bought, or count the pot.</p>}
          columns={[
            {
              key: 'at',
              head: 'When',
              title: true,
              cell: (line) =>
                formatDateTime(line.at.toISOString(), {
                  locale: 'en-US',
                  timeZone: shop.timeZone,
                }),
            },
            {
              key: 'kind',
              head: 'Move',
              cell: (line) => moveWords[line.kind].label,
            },
            {
              key: 'mass',
              head: 'In or out',
              cell: (line) => `${line.massKg > 0 ? '+' : ''}${mass(line.massKg)}`,
            },
            {
              key: 'after',
              head: 'In the pot then',
              cell: (line) => mass(line.afterKg),
            },
            { key: 'by', head: 'By', cell: (line) => line.by?.name ?? '–' },
            {
              key: 'note',
              head: 'Note',
              cell: (line) =>
                [line.job && `job ${line.job.number}`, line.noteText].filter(Boolean).join(', ') || '–',
            },
          ]}
        />
        {ledger.pageCount > 1 && (
          <Pager
            page={page}
            pageCount={ledger.pageCount}
            hrefFor={(to) => `/shop/fillers/${pot.id}?page=${to}`}
          />
        )}
      </Section>
      {alloy && (
        <Section title="The alloy">
          <FillerFacts alloy={alloy} temperatureUnit={isInch ? 'F' : 'C'} />
          <p>
            <Link href={`/materials/fillers/${encodeURIComponent(alloy.id)}`}>
              All its values, and where each is from
            </Link>
          </p>
        </Section>
      )}
      {may(actor, 'tooling.write') && <PotSection pot={pot} units={units} choices={choices} />}
    </>
  )
}
