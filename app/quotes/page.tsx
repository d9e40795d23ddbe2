import './quotes.css'
import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { moneyText } from '@/app/_ui/money'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { SearchBox } from '@/app/_ui/search-box'
import { SectionNav } from '@/app/_ui/section-nav'
import { formatDate } from '@/lib/core/format'
import { quotesPerPage, readQuotes } from '@/lib/records/quote/read'
import { dayInZone, type QuoteStanding, standingWords } from '@/lib/records/quote/rules'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Quotes' }

const filters: readonly (readonly [QuoteStanding | 'open' | 'follow' | '', string])[] = [
  ['open', 'Open'],
  ['follow', 'To follow up'],
  ['draft', 'Drafts'],
  ['sent', 'Sent'],
  ['accepted', 'Accepted'],
  ['declined', 'Lost'],
  ['lapsed', 'Lapsed'],
  ['', 'All'],
]

type Params = { q?: string; standing?: string; page?: string }

export default async function QuotesPage({ searchParams }: { searchParams: Promise<Params> }) {
  const actor = await requireActor('quote.read')
  const [shop, params] = await Promise.all([readShop(), searchParams])
  const search = String(params.q ?? '').slice(0, 100)
  const standing = filters.find(([key]) => key === params.standing)?.[0] ?? (search ? '' : 'open')
  const page = Math.min(Math.max(Number.parseInt(params.page ?? '1', 10) || 1, 1), 100_000)
  const today = dayInZone(new Date(), shop.timeZone)
  const { count, rows } = await readQuotes({ search, standing, page, today })
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  const day = (date: Date) => formatDate(date.toISOString().slice(0, 10), place)
  const address = (next: Params) => {
    const query = new URLSearchParams({ ...(search && { q: search }), standing, ...next })
    return `/quotes?${query.toString()}`
  }
  return (
    <>
      <PageHead
        title="Quotes"
        actions={
          may(actor, 'quote.write') && (
            <LinkButton kind="primary" href="/quotes/new">
              New quote
            </LinkButton>
          )
        }
      />
      <div className="row row-spread">
        <SectionNav
          label="Which quotes"
          links={filters.map(([key, label]) => ({
            label,
            href: address({ standing: key, page: '1' }),
            current: key === standing,
          }))}
        />
        <SearchBox label="Find by number or customer" action="/quotes" defaultValue={search} />
      </div>
      <DataTable
        caption="Quotes, newest first"
        captionHidden
        rows={rows}
        rowKey={(row) => String(row.id)}
        rowHref={(row) => `/quotes/${row.id}`}
        empty={
          <Empty
            title={
              search ? 'No quote fits that' : standing === 'follow' ? 'Nobody to ask today' : 'No quotes here'
            }
          >
            {search
              ? 'Try a part of the number or of the customer’s name.'
              : standing === 'follow'
                ? 'A sent quote stands here from its follow-up day on, until it is answered.'
                : 'A quote starts from a part that is priced.'}
          </Empty>
        }
        columns={[
          {
            key: 'number',
            head: 'Quote',
            title: true,
            cell: (row) => <span className="mono nowrap">{row.number}</span>,
          },
          { key: 'customer', head: 'Customer', cell: (row) => row.customer.name },
          {
            key: 'what',
            head: 'What',
            cell: (row) => (
              <span className="quote-what">
                {row.lines[0]?.description ?? ''}
                {row.lines.length > 1 && ` and ${row.lines.length - 1} more`}
              </span>
            ),
          },
          {
            key: 'from',
            head: 'Price each',
            cell: (row) => {
              const prices = row.lines
                .flatMap((line) => line.breaks.map((step) => step.unitCents))
                .filter((cents) => cents > 0)
              if (prices.length === 0) return 'not priced'
              const low = moneyText(Math.min(...prices), row.currency)
              const high = moneyText(Math.max(...prices), row.currency)
              return <span className="nowrap">{low === high ? low : `${low} to ${high}`}</span>
            },
          },
          { key: 'state', head: 'State', cell: (row) => standingWords[row.standing] },
          {
            key: 'valid',
            head: 'Valid until',
            cell: (row) => <span className="nowrap">{day(row.validUntil)}</span>,
          },
          {
            key: 'follow',
            head: 'Follow up',
            cell: (row) =>
              row.followUpOn ? (
                <span className="nowrap">
                  {day(row.followUpOn)}
                  {row.followUpOn <= today && row.standing === 'sent' && ', due'}
                </span>
              ) : (
                '–'
              ),
          },
        ]}
      />
      <Pager
        page={page}
        pageCount={Math.ceil(count / quotesPerPage)}
        hrefFor={(next) => address({ page: String(next) })}
      />
    </>
  )
}
