import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { formatNumber, formatTemperature, THIN_SPACE } from '@/lib/core/format'
import type { Filler } from '@/lib/core/materials/low-melt'
import { shopUnits } from '@/lib/core/shop-format'
import { readFillerTable } from '@/lib/records/filler-alloy/read'
import { statusSummary } from '@/lib/records/material/rules'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { MaterialsNav } from '../materials-nav'
import { stressWords } from '../value-text'

export const metadata: Metadata = { title: 'Fillers' }

const madeOf = (filler: Filler): string =>
  filler.kind === 'sand'
    ? 'quartz sand'
    : Object.entries(filler.compositionPct)
        .map(([symbol, pct]) => `${symbol}${THIN_SPACE}${pct}`)
        .join(', ')

const poisons = (filler: Filler): string =>
  [
    filler.containsLead && 'lead',
    filler.containsCadmium && 'cadmium',
    filler.containsIndium && 'indium',
    filler.kind === 'sand' && 'silica dust',
  ]
    .filter(Boolean)
    .join(', ') || 'none of lead, cadmium or indium'

export default async function FillersTablePage() {
  const actor = await requireActor('material.read')
  const [shop, fillers] = await Promise.all([readShop(), readFillerTable()])
  const temperature = (temperatureC: number) =>
    formatTemperature(temperatureC, { unit: shopUnits[shop.lengthUnit].temperature })
  return (
    <>
      <PageHead
        title="Fillers"
        trail={[{ label: 'Stock', href: '/stock' }]}
        actions={
          may(actor, 'material.write') && (
            <LinkButton kind="primary" href="/materials/fillers/new">
              Add a filler
            </LinkButton>
          )
        }
      >
        What a bore can be filled with. What the shop has of them stands with its pots.
      </PageHead>
      <div className="stack">
        <MaterialsNav current="fillers" />
        <Notice kind="caution" title="Water in a tube or on a tool throws molten alloy">
          Dry the tube, the plugs and the ladle before pouring. Read what is in an alloy before you melt it:
          lead and cadmium harm by fume and by dust, so melt with a fume hood on, wash before eating, and keep
          the alloy off the floor.
        </Notice>
        <DataTable
          caption="Fillers"
          captionHidden
          rows={fillers}
          rowKey={({ filler }) => filler.id}
          rowHref={({ filler }) => `/materials/fillers/${encodeURIComponent(filler.id)}`}
          columns={[
            {
              key: 'name',
              head: 'Filler',
              title: true,
              cell: ({ filler, entry }) => (entry ? `${filler.name}, the shop’s own` : filler.name),
            },
            { key: 'made', head: 'Made of, percent by mass', cell: ({ filler }) => madeOf(filler) },
            {
              key: 'melts',
              head: 'Melts',
              cell: ({ filler }) => {
                if (filler.kind === 'sand') return 'does not'
                return filler.solidusC === filler.liquidusC
                  ? temperature(filler.liquidusC)
                  : `${temperature(filler.solidusC)} to ${temperature(filler.liquidusC)}`
              },
            },
            {
              key: 'density',
              head: 'Density',
              cell: ({ filler }) => `${formatNumber(filler.densityKgM3, { decimals: 0 })}${THIN_SPACE}kg/m³`,
            },
            {
              key: 'yield',
              head: 'Yield',
              cell: ({ filler }) =>
                filler.kind === 'sand' ? 'none' : stressWords(filler.yieldMPa, shop.lengthUnit),
            },
            { key: 'hazard', head: 'Can harm', cell: ({ filler }) => poisons(filler) },
            {
              key: 'sources',
              head: 'How the values were come by',
              cell: ({ filler }) => statusSummary(filler.sources),
            },
          ]}
        />
      </div>
    </>
  )
}
