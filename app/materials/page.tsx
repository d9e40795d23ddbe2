import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { SearchBox } from '@/app/_ui/search-box'
import { formatPercent } from '@/lib/core/format'
import { readAlloys } from '@/lib/records/material/read'
import { familyWords, materialFits, statusSummary } from '@/lib/records/material/rules'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { MaterialsNav } from './materials-nav'
import { stressWords } from './value-text'

export const metadata: Metadata = { title: 'Materials' }

type Asked = { searchParams: Promise<{ q?: string }> }

export default async function MaterialsPage({ searchParams }: Asked) {
  const actor = await requireActor('material.read')
  const [shop, all, asked] = await Promise.all([readShop(), readAlloys(), searchParams])
  const search = String(asked.q ?? '')
    .trim()
    .slice(0, 100)
  const alloys = all.filter((alloy) =>
    materialFits({ ...alloy, words: `${familyWords[alloy.family]} ${alloy.form}` }, search),
  )
  const stress = (stressMPa: number) => stressWords(stressMPa, shop.lengthUnit)
  return (
    <>
      <PageHead
        title="Materials"
        trail={[{ label: 'Stock', href: '/stock' }]}
        actions={
          may(actor, 'material.write') && (
            <LinkButton kind="primary" href="/materials/new">
              Add a material
            </LinkButton>
          )
        }
      >
        Typical values, for springback and force. A lot’s certificate takes over from them.
      </PageHead>
      <div className="stack">
        <MaterialsNav current="alloys" />
        <SearchBox label="Find by alloy, temper, family or form" action="/materials" defaultValue={search} />
        <DataTable
          caption="Tube alloys and tempers"
          captionHidden
          rows={alloys}
          rowKey={(alloy) => alloy.id}
          rowHref={(alloy) => `/materials/${encodeURIComponent(alloy.id)}`}
          empty={
            <Empty
              title={`No material fits “${search}”`}
              action={<LinkButton href="/materials">Show all</LinkButton>}
            />
          }
          columns={[
            { key: 'id', head: 'Material', title: true, cell: (alloy) => alloy.id },
            { key: 'family', head: 'Family', cell: (alloy) => familyWords[alloy.family] },
            { key: 'form', head: 'Form', cell: (alloy) => alloy.form || '–' },
            { key: 'yield', head: 'Yield', cell: (alloy) => stress(alloy.yieldMPa) },
            { key: 'tensile', head: 'Tensile', cell: (alloy) => stress(alloy.tensileMPa) },
            {
              key: 'elongation',
              head: 'Elongation',
              cell: (alloy) => formatPercent(alloy.elongationPct / 100),
            },
            {
              key: 'whose',
              head: 'Values',
              cell: (alloy) =>
                alloy.ownVersion === null ? 'table' : alloy.overTable ? 'own, over the table' : 'own',
            },
            { key: 'sources', head: 'How they were come by', cell: (alloy) => statusSummary(alloy.sources) },
          ]}
        />
      </div>
    </>
  )
}
