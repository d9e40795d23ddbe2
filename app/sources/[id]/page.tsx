import '../../parts/part.css'
import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { Facts, Section } from '@/app/_ui/section'
import { AskTable } from '@/app/asks/ask-table'
import { PutAway } from '@/app/customers/put-away'
import { formatLength, formatNumber, formatPercent } from '@/lib/core/format'
import { readAsks } from '@/lib/records/ask/read'
import { dayInZone } from '@/lib/records/quote/rules'
import { readShop } from '@/lib/records/shop/read'
import { readSource } from '@/lib/records/source/read'
import { may, requireActor } from '@/lib/server/session'
import { archiveSourceAction, restoreSourceAction } from '../actions'
import { answerWords, deliveryWords } from '../history-words'

type Asked = { params: Promise<{ id: string }>; searchParams: Promise<{ page?: string }> }

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('source.read')
  const id = rowId((await params).id)
  return { title: (id === null ? null : await readSource(id))?.name ?? 'Outside bender' }
}

export default async function SourcePage({ params, searchParams }: Asked) {
  const actor = await requireActor('source.read')
  const id = rowId((await params).id)
  const source = id === null ? null : await readSource(id)
  if (!source) notFound()
  const page = rowId(String((await searchParams).page ?? '1')) ?? 1
  const shop = await readShop()
  const today = dayInZone(new Date(), shop.timeZone)
  const { asks, pageCount } = await readAsks({ search: '', page, standing: null, today, sourceId: source.id })
  const { history } = source
  const writes = may(actor, 'source.write')
  const archived = source.archivedAt !== null
  const lines = (text: string) => <span className="typed-lines">{text || '–'}</span>
  return (
    <>
      <PageHead
        kind="Outside bender"
        title={source.name}
        trail={[{ label: 'Benders', href: '/sources' }]}
        actions={writes && <LinkButton href={`/sources/${source.id}/edit`}>Change</LinkButton>}
      />
      {archived && (
        <Notice title="Put away">
          No longer among those to ask. What was asked of them, and what they said, is kept.
        </Notice>
      )}
      <div className="stack stack-loose">
        <div className="split split-even">
          <Section title="What they can bend">
            <Facts
              facts={[
                ['In words', lines(source.canBendText)],
                [
                  'Tightest radius',
                  source.minimumRadiusRatio === null
                    ? '–'
                    : `${formatNumber(source.minimumRadiusRatio)} times the tube’s size`,
                ],
                [
                  'Largest tube',
                  source.maximumSizeMm === null ? '–' : formatLength(source.maximumSizeMm, shop.lengthUnit),
                ],
                ['Alloys and tempers', source.alloysText || '–'],
                ['Notes', lines(source.notesText)],
              ]}
            />
          </Section>
          <Section title="Whom to reach">
            <Facts
              facts={[
                ['Ask for', source.contactText || '–'],
                ['E-mail', source.email ? <a href={`mailto:${source.email}`}>{source.email}</a> : '–'],
                [
                  'Phone',
                  source.phone ? (
                    <a className="nowrap" href={`tel:${source.phone.replace(/[^+\d]/g, '')}`}>
                      {source.phone}
                    </a>
                  ) : (
                    '–'
                  ),
                ],
              ]}
            />
          </Section>
        </div>
        <Section title="How they have answered">
          <Facts
            facts={[
              [
                'Answers',
                `${answerWords(history)}${history.answeredFraction === null ? '' : ` (${formatPercent(history.answeredFraction, { decimals: 0 })})`}`,
              ],
              [
                'Came to',
                `${history.quotedCount} priced, ${history.declinedCount} declined, ${history.silentCount} silent, ${history.waitingCount} still open`,
              ],
              ['Orders', deliveryWords(history)],
            ]}
          />
        </Section>
        <Section title="What was asked of them" id="asks">
          <div className="stack">
            <AskTable
              asks={asks}
              caption={`Price requests to ${source.name}`}
              today={today}
              shop={shop}
              empty={<p className="muted">Nothing yet. A part’s page of asks sends the first request.</p>}
            />
            <Pager
              page={page}
              pageCount={pageCount}
              hrefFor={(next) => `/sources/${source.id}?page=${next}#asks`}
            />
          </div>
        </Section>
        {writes && (
          <PutAway
            what="bender"
            record={{ id: source.id, version: source.version }}
            archived={archived}
            archive={archiveSourceAction}
            restore={restoreSourceAction}
          />
        )}
      </div>
    </>
  )
}
