import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { statusWords } from '@/lib/core/materials/provenance'
import { readAlloy, readMaterialUse } from '@/lib/records/material/read'
import { alloyFieldWords, familyWords } from '@/lib/records/material/rules'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { nameInAddress } from '../name-in-address'
import { RemoveMaterial } from '../remove-material'
import { valueText } from '../value-text'

export const metadata: Metadata = { title: 'Material' }

type Asked = { params: Promise<{ id: string }> }

export default async function MaterialPage({ params }: Asked) {
  const actor = await requireActor('material.read')
  const id = nameInAddress((await params).id)
  const [shop, found] = await Promise.all([readShop(), id === null ? null : readAlloy(id)])
  if (!found) notFound()
  const { alloy, table } = found
  const use = await readMaterialUse(alloy.id)
  const rows = alloyFieldWords.flatMap(([field, words]) => {
    const value = alloy[field]
    if (value === undefined) return []
    const tableValue = table?.[field]
    return [{ field, words, value, tableValue, provenance: alloy.sources[field] }]
  })
  const mayWrite = may(actor, 'material.write')
  const address = `/materials/${encodeURIComponent(alloy.id)}`
  return (
    <>
      <PageHead
        kind={alloy.ownVersion === null ? 'Material of the table' : 'Material of the shop’s own'}
        title={alloy.id}
        trail={[
          { label: 'Stock', href: '/stock' },
          { label: 'Materials', href: '/materials' },
        ]}
        actions={
          mayWrite &&
          (alloy.ownVersion === null ? (
            <LinkButton href={`/materials/new?over=${encodeURIComponent(alloy.id)}`}>
              Enter the shop’s own values
            </LinkButton>
          ) : (
            <>
              <LinkButton href={`${address}/edit`}>Change</LinkButton>
              <RemoveMaterial id={alloy.id} version={alloy.ownVersion} overTable={alloy.overTable} />
            </>
          ))
        }
      >
        {alloy.name === alloy.id ? '' : alloy.name}
      </PageHead>
      <div className="stack stack-loose">
        <Section title="What it is">
          <Facts
            facts={[
              ['Family', familyWords[alloy.family]],
              ['Temper', alloy.temper || 'not noted'],
              ['Form', alloy.form || 'not noted'],
              [
                'Heat treatment',
                alloy.heatTreatable
                  ? 'its strength comes from ageing: heat can take it away'
                  : 'none gives it strength',
              ],
              [
                'Used by',
                <span key="use">
                  {use.parts} part {use.parts === 1 ? 'revision' : 'revisions'},{' '}
                  <Link href={`/stock?q=${encodeURIComponent(alloy.id)}`}>
                    {use.lots} {use.lots === 1 ? 'lot' : 'lots'}
                  </Link>
                </span>,
              ],
            ]}
          />
        </Section>
        <Section title="Its values, and where each is from">
          <DataTable
            caption="Values with their sources"
            captionHidden
            rows={rows}
            rowKey={({ field }) => field}
            columns={[
              { key: 'what', head: 'Value', title: true, cell: ({ words }) => words },
              {
                key: 'value',
                head: 'Number',
                cell: ({ field, value }) => valueText(field, value, shop.lengthUnit),
              },
              ...(table
                ? [
                    {
                      key: 'table',
                      head: 'In the table',
                      cell: ({ field, tableValue }: (typeof rows)[number]) =>
                        tableValue === undefined ? '–' : valueText(field, tableValue, shop.lengthUnit),
                    },
                  ]
                : []),
              { key: 'source', head: 'Source', cell: ({ provenance }) => provenance?.source ?? 'not noted' },
              {
                key: 'status',
                head: 'How sure',
                cell: ({ provenance }) => (provenance ? statusWords[provenance.status] : 'not noted'),
              },
            ]}
          />
        </Section>
        {alloy.notes.length > 0 && (
          <Section title="Notes">
            <ul className="ruled-list">
              {alloy.notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ul>
          </Section>
        )}
      </div>
    </>
  )
}
