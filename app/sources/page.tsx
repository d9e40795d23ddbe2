import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { SearchBox } from '@/app/_ui/search-box'
import { SectionNav } from '@/app/_ui/section-nav'
import { readSources } from '@/lib/records/source/read'
import { may, requireActor } from '@/lib/server/session'
import { answerWords, deliveryWords } from './history-words'

export const metadata: Metadata = { title: 'Outside benders' }

type Asked = { searchParams: Promise<{ q?: string; page?: string; show?: string }> }

export default async function SourcesPage({ searchParams }: Asked) {
  const actor = await requireActor('source.read')
  const asked = await searchParams
  const search = String(asked.q ?? '')
    .trim()
    .slice(0, 100)
  const page = Math.min(Math.max(Math.trunc(Number(asked.page ?? 1)) || 1, 1), 100_000)
  const archived = asked.show === 'archived'
  const { sources, pageCount } = await readSources({ search, page, archived })
  const add = may(actor, 'source.write') && (
    <LinkButton kind="primary" href="/sources/new">
      New bender
    </LinkButton>
  )
  const address = (to: { page?: number; show?: string }) => {
    const query = new URLSearchParams()
    if (search) query.set('q', search)
    if (to.show) query.set('show', to.show)
    if (to.page && to.page > 1) query.set('page', String(to.page))
    return query.size > 0 ? `/sources?${query}` : '/sources'
  }
  return (
    <>
      <PageHead title="Outside benders" trail={[{ label: 'Asks', href: '/asks' }]} actions={add}>
        Who can bend what this shop sends out, and how they have answered so far.
      </PageHead>
      <div className="stack">
        <SearchBox
          label="Find by name, contact, alloy or what they bend"
          action="/sources"
          defaultValue={search}
          keep={{ show: archived ? 'archived' : undefined }}
        />
        <SectionNav
          label="Which benders"
          links={[
            { href: address({}), label: 'In use', current: !archived },
            { href: address({ show: 'archived' }), label: 'Put away', current: archived },
          ]}
        />
        <DataTable
          caption="Outside benders by name"
          captionHidden
          rows={sources}
          rowKey={(source) => String(source.id)}
          rowHref={(source) => `/sources/${source.id}`}
          empty={
            <Empty
              title={search ? `No bender fits “${search}”` : archived ? 'None is put away' : 'No bender yet'}
              action={search ? <LinkButton href="/sources">Show all</LinkButton> : add}
            >
              {!search &&
                !archived &&
                'Enter whom you could ask for a price when a part is not for this press.'}
            </Empty>
          }
          columns={[
            { key: 'name', head: 'Bender', title: true, cell: (source) => source.name },
            { key: 'bends', head: 'What they bend', cell: (source) => source.canBendText || '–' },
            { key: 'alloys', head: 'Alloys', cell: (source) => source.alloysText || '–' },
            { key: 'answers', head: 'Answers', cell: ({ history }) => answerWords(history) },
            { key: 'orders', head: 'Orders', cell: ({ history }) => deliveryWords(history) },
          ]}
        />
        <Pager
          page={page}
          pageCount={pageCount}
          hrefFor={(next) => address({ page: next, show: archived ? 'archived' : undefined })}
        />
      </div>
    </>
  )
}
