import type { Metadata } from 'next'
import Link from 'next/link'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { formatPercent } from '@/lib/core/format'
import { readDemoIsHere } from '@/lib/records/demo/read'
import { readShop } from '@/lib/records/shop/read'
import { readToolCounts } from '@/lib/records/tooling/read'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Shop' }

export default async function ShopPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>
}) {
  const actor = await requireActor('tooling.read')
  const [shop, counts, demoIsHere, asked] = await Promise.all([
    readShop(),
    readToolCounts(),
    readDemoIsHere(),
    searchParams,
  ])
  const tools = [
    {
      name: 'Presses',
      href: '/shop/presses',
      count: counts.presses,
      what: 'force, stroke, supports and spans',
    },
    {
      name: 'Dies',
      href: '/shop/dies',
      count: counts.dies,
      what: 'surface radius and groove',
    },
    {
      name: 'Straps',
      href: '/shop/straps',
      count: counts.straps,
      what: 'backing straps and their strength',
    },
    {
      name: 'Fillers',
      href: '/shop/fillers',
      count: counts.fillers,
      what: 'pots of alloy, by the kilogram',
    },
  ]
  return (
    <>
      <PageHead title={shop.name} />
      {asked.demo === 'failed' && (
        <Notice kind="stop" title="The demo shop could not be loaded" alert>
          Your account and the empty shop are there. The program’s log says what went wrong.
        </Notice>
      )}
      {demoIsHere && may(actor, 'demo.remove') && (
        <Notice
          title="The demo shop is loaded"
          actions={<LinkButton href="/shop/demo">Remove it</LinkButton>}
        >
          Its customers, parts, quotes, jobs and tools are invented, to look round in.
        </Notice>
      )}
      <Section title="Tools in use">
        <DataTable
          caption="Tools in use"
          captionHidden
          rows={tools}
          rowKey={(tool) => tool.href}
          rowHref={(tool) => tool.href}
          columns={[
            {
              key: 'name',
              head: 'Tools',
              title: true,
              cell: (tool) => tool.name,
            },
            {
              key: 'count',
              head: 'In use',
              numeric: true,
              cell: (tool) => tool.count,
            },
            {
              key: 'what',
              head: 'What is kept of them',
              cell: (tool) => tool.what,
            },
          ]}
        />
      </Section>
      {may(actor, 'shop.read') && (
        <Section title="How the shop writes" aside={<Link href="/shop/settings">Settings</Link>}>
          <Facts
            facts={[
              ['Lengths in', shop.lengthUnit === 'in' ? 'inches' : 'millimetres'],
              ['Money in', shop.currency],
              ['Paper', shop.paper === 'a4' ? 'A4' : 'Letter'],
              ['Time zone', shop.timeZone.replaceAll('_', ' ')],
              [shop.taxName || 'Tax', formatPercent(shop.taxPpm / 1e6, { decimals: 4 })],
              ['Quotes hold for', `${shop.quoteValidDays} days`],
            ]}
          />
        </Section>
      )}
    </>
  )
}
