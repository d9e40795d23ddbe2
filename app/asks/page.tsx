import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { SearchBox } from '@/app/_ui/search-box'
import { SectionNav } from '@/app/_ui/section-nav'
import { readAsks } from '@/lib/records/ask/read'
import { askStandings, standingWords } from '@/lib/records/ask/rules'
import { dayInZone } from '@/lib/records/quote/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { AskTable } from './ask-table'

export const metadata: Metadata = { title: 'Asks' }

type Asked = { searchParams: Promise<{ q?: string; page?: string; show?: string }> }

export default async function AsksPage({ searchParams }: Asked) {
  await requireActor('ask.read')
  const shop = await readShop()
  const asked = await searchParams
  const search = String(asked.q ?? '')
    .trim()
    .slice(0, 100)
  const page = Math.min(Math.max(Math.trunc(Number(asked.page ?? 1)) || 1, 1), 100_000)
  const standing = askStandings.find((one) => one === asked.show) ?? null
  const today = dayInZone(new Date(), shop.timeZone)
  const { asks, pageCount, counts } = await readAsks({ search, page, standing, today })
  const address = (to: { page?: number; show?: string }) => {
    const query = new URLSearchParams()
    if (search) query.set('q', search)
    if (to.show) query.set('show', to.show)
    if (to.page && to.page > 1) query.set('page', String(to.page))
    return query.size > 0 ? `/asks?${query}` : '/asks'
  }
  const narrowed = search !== '' || standing !== null
  return (
    <>
      <PageHead title="Asks" actions={<LinkButton href="/sources">Outside benders</LinkButton>}>
        Price requests sent to outside benders. A part’s own page of asks sends new ones.
      </PageHead>
      <div className="stack">
        <SearchBox
          label="Find by bender, part or reason"
          action="/asks"
          defaultValue={search}
          keep={{ show: standing ?? undefined }}
        />
        <SectionNav
          label="Which asks"
          links={[
            { href: address({}), label: 'all', current: standing === null },
            ...askStandings.map((one) => ({
              href: address({ show: one }),
              label: standingWords[one],
              count: counts[one],
              current: one === standing,
            })),
          ]}
        />
        <AskTable
          asks={asks}
          caption="Price requests, those that wait first"
          today={today}
          shop={shop}
          empty={
            <Empty
              title={narrowed ? 'No ask fits' : 'Nobody has been asked yet'}
              action={
                narrowed ? (
                  <LinkButton href="/asks">Show all</LinkButton>
                ) : (
                  <LinkButton kind="primary" href="/parts">
                    Choose a part
                  </LinkButton>
                )
              }
            >
              {!narrowed && 'Open a part and ask the benders you choose for a price.'}
            </Empty>
          }
        />
        <Pager
          page={page}
          pageCount={pageCount}
          hrefFor={(next) => address({ page: next, show: standing ?? undefined })}
        />
      </div>
    </>
  )
}
