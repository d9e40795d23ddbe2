import type { Metadata } from 'next'
import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { SearchBox } from '@/app/_ui/search-box'
import { SectionNav } from '@/app/_ui/section-nav'
import { Verdict } from '@/app/_ui/verdict'
import { JobsNav } from '@/app/jobs/jobs-nav'
import { formatDate } from '@/lib/core/format'
import { dispositionNotes } from '@/lib/core/inspection/disposition'
import { type FaultState, readFaults } from '@/lib/records/fault/read'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Faults' }

const states: readonly { state: FaultState; label: string }[] = [
  { state: 'open', label: 'Open' },
  { state: 'decided', label: 'Decided' },
  { state: 'all', label: 'All' },
]

/** What did not conform, across all jobs: what waits for a decision, and what was decided. */
export default async function FaultsPage({
  searchParams,
}: {
  searchParams: Promise<{ show?: string; q?: string; page?: string }>
}) {
  await requireActor('job.read')
  const asked = await searchParams
  const state = states.find((one) => one.state === asked.show)?.state ?? 'open'
  const search = String(asked.q ?? '').slice(0, 100)
  const page = Math.min(Math.max(Number.parseInt(String(asked.page ?? '1'), 10) || 1, 1), 100_000)
  const [shop, { faults, openCount, decidedCount, pageCount }] = await Promise.all([
    readShop(),
    readFaults({ state, search, page }),
  ])
  const day = (at: Date) => formatDate(at.toISOString(), { locale: 'en-US', timeZone: shop.timeZone })
  const href = (to: { show?: string; page?: number }) =>
    `/faults?${new URLSearchParams({
      show: to.show ?? state,
      ...(search && { q: search }),
      ...(to.page && { page: String(to.page) }),
    })}`
  const counts = { open: openCount, decided: decidedCount, all: openCount + decidedCount }
  return (
    <>
      <PageHead title="Faults">Nothing is released past an open one.</PageHead>
      <JobsNav current="/faults" />
      <SectionNav
        label="Which faults"
        links={states.map((one) => ({
          href: href({ show: one.state }),
          label: one.label,
          count: counts[one.state],
          current: one.state === state,
        }))}
      />
      <SearchBox label="Find a fault" action="/faults" defaultValue={search} keep={{ show: state }} />
      <DataTable
        caption={`Faults, ${state}`}
        captionHidden
        rows={faults}
        rowKey={(fault) => String(fault.id)}
        rowHref={(fault) => `/faults/${fault.id}`}
        empty={
          <p className="muted">
            {search
              ? `No fault here has “${search}” in it.`
              : state === 'open'
                ? 'Nothing waits for a decision.'
                : 'None yet.'}
          </p>
        }
        columns={[
          { key: 'number', head: 'Fault', title: true, cell: (fault) => fault.number },
          {
            key: 'job',
            head: 'Job',
            cell: (fault) => (
              <Link href={`/jobs/${fault.job.id}`}>
                {fault.job.number}
                {fault.piece ? `, piece ${fault.piece.number}` : ', the whole job'}
              </Link>
            ),
          },
          { key: 'part', head: 'Part', cell: (fault) => fault.job.revision.part.name },
          { key: 'what', head: 'What is wrong', cell: (fault) => fault.description },
          {
            key: 'opened',
            head: 'Opened',
            cell: (fault) => `${day(fault.openedAt)}, ${fault.openedBy.name}`,
          },
          {
            key: 'decided',
            head: 'Decision',
            cell: (fault) =>
              fault.disposition ? (
                `${dispositionNotes[fault.disposition].name}: ${fault.whyText}${fault.decidedAt ? ` (${fault.decidedBy?.name ?? ''}, ${day(fault.decidedAt)})` : ''}`
              ) : (
                <Verdict word="waiting">a decision</Verdict>
              ),
          },
        ]}
      />
      {pageCount > 1 && <Pager page={page} pageCount={pageCount} hrefFor={(to) => href({ page: to })} />}
    </>
  )
}
