import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Pager } from '@/app/_ui/pager'
import { SearchBox } from '@/app/_ui/search-box'
import { formatDate } from '@/lib/core/format'
import { readJobs } from '@/lib/records/job/read'
import { may, requireActor } from '@/lib/server/session'
import { JobsNav } from './jobs-nav'

export const metadata: Metadata = { title: 'Jobs' }

const pageSize = 50

export default async function JobsPage({
  searchParams,
}: {
  searchParams: Promise<{ q?: string; page?: string }>
}) {
  const actor = await requireActor('job.read')
  const { q = '', page: asked = '1' } = await searchParams
  const page = Math.min(Math.max(Number.parseInt(asked, 10) || 1, 1), 100_000)
  const { count, jobs } = await readJobs({ q: String(q).slice(0, 100), page, pageSize })
  const day = (at: Date) => formatDate(at.toISOString(), { locale: 'en-US', timeZone: 'UTC' })
  return (
    <>
      <PageHead
        title="Jobs"
        actions={may(actor, 'job.write') && <LinkButton href="/jobs/new">Open a job</LinkButton>}
      />
      <JobsNav current="/jobs" />
      <SearchBox label="Find a job" action="/jobs" defaultValue={String(q)} />
      <DataTable
        caption="Jobs, due first"
        captionHidden
        rows={jobs}
        rowKey={(job) => String(job.id)}
        rowHref={(job) => `/jobs/${job.id}`}
        empty={
          <p className="muted">
            {q
              ? `No job has “${String(q).slice(0, 100)}” in its number, customer or part.`
              : 'No job yet: accept a quote, or open one straight in.'}
          </p>
        }
        columns={[
          { key: 'number', head: 'Job', title: true, cell: (job) => job.number },
          { key: 'due', head: 'Due', cell: (job) => day(job.dueOn) },
          {
            key: 'part',
            head: 'Part',
            cell: (job) => `${job.partNumber} ${job.letter}, ${job.partName}`,
          },
          { key: 'customer', head: 'Customer', cell: (job) => job.customerName },
          { key: 'status', head: 'Status', cell: (job) => job.status },
          {
            key: 'done',
            head: 'Released',
            cell: (job) => `${job.releasedCount} of ${job.quantity}`,
          },
        ]}
      />
      <Pager
        page={page}
        pageCount={Math.max(1, Math.ceil(count / pageSize))}
        hrefFor={(to) => `/jobs?${new URLSearchParams({ q: String(q), page: String(to) })}`}
      />
    </>
  )
}
