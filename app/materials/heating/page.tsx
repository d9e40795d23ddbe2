import type { Metadata } from 'next'
import { DataTable } from '@/app/_ui/data-table'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { formatDuration, formatTemperature } from '@/lib/core/format'
import { statusWords } from '@/lib/core/materials/provenance'
import { shopUnits } from '@/lib/core/shop-format'
import { REHEAT_TABLE_STATUS, reheatTable } from '@/lib/core/temper/reheat'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { MaterialsNav } from '../materials-nav'

export const metadata: Metadata = { title: 'Heating' }

export default async function HeatingPage() {
  await requireActor('material.read')
  const shop = await readShop()
  const other = shop.lengthUnit === 'in' ? 'C' : 'F'
  const own = shopUnits[shop.lengthUnit].temperature
  return (
    <>
      <PageHead title="Heating" trail={[{ label: 'Stock', href: '/stock' }]}>
        How long aged aluminium may be hot before it loses about 5 percent of its strength.
      </PageHead>
      <div className="stack">
        <MaterialsNav current="heating" />
        <Notice kind="caution" title={REHEAT_TABLE_STATUS}>
          Use less than they allow, and prove what matters by a hardness test on a piece that went through the
          same heat.
        </Notice>
        <Section title="The time a temperature allows">
          <DataTable
            caption="Longest total time at a temperature"
            captionHidden
            rows={reheatTable}
            rowKey={({ temperatureC }) => String(temperatureC)}
            columns={[
              {
                key: 'own',
                head: 'At',
                title: true,
                cell: ({ temperatureC }) => formatTemperature(temperatureC, { unit: own }),
              },
              {
                key: 'other',
                head: 'That is',
                cell: ({ temperatureC }) => formatTemperature(temperatureC, { unit: other }),
              },
              {
                key: 'time',
                head: 'At most, in all',
                cell: ({ allowedMinutes }) => formatDuration(allowedMinutes),
              },
              { key: 'status', head: 'How sure', cell: () => statusWords.memory },
            ]}
          />
          <div className="prose">
            <p>
              Source: Aluminum Association fabrication guidance for 6061-T6 and 6063-T5 or T6, from memory;
              the low end of each range printed. Times add up: each pour, melt-out and preheat uses its share
              of the whole.
            </p>
            <p>
              Between two rows the logarithm of the time runs straight against one over the absolute
              temperature. Below the first row a heating counts nothing; above the last none is allowed.
            </p>
          </div>
        </Section>
      </div>
    </>
  )
}
