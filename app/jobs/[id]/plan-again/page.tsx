import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { isWay } from '@/lib/records/job/rules'
import { readNextIssue } from '@/lib/records/job-plan/read'
import { requireActor } from '@/lib/server/session'
import { PlanAgainForm } from './plan-again-form'

export const metadata: Metadata = { title: 'Plan again' }

/** What the next issue of a traveller would change, and the press that makes it. */
export default async function PlanAgainPage({
  params,
  searchParams,
}: {
  params: Promise<{ id: string }>
  searchParams: Promise<{ way?: string | string[] }>
}) {
  await requireActor('job.write')
  const [id, { way = '' }] = [rowId((await params).id), await searchParams]
  const asked = typeof way === 'string' && isWay(way) ? way : undefined
  const next = id === null ? null : await readNextIssue(id, asked)
  if (!next) notFound()
  const { changes } = next
  return (
    <>
      <PageHead
        title="Plan again"
        trail={[
          { label: 'Jobs', href: '/jobs' },
          { label: next.number, href: `/jobs/${next.jobId}` },
        ]}
      >
        {next.number}, {next.partName}: issue {next.issue + 1} of the traveller, from the set-up, the stock
        and the lessons as they are now.
      </PageHead>
      {next.status === 'open' ? (
        <div className="stack stack-loose">
          <Section title={`What issue ${next.issue + 1} changes`}>
            {next.plan.refusal && <Notice kind="stop" title={next.plan.refusal} />}
            {changes.length === 0 ? (
              <p>Nothing: it would say what issue {next.issue} says. Prints of that one hold.</p>
            ) : (
              <ul className="ruled-list">
                {changes.map((change) => (
                  <li key={change}>{change}</li>
                ))}
              </ul>
            )}
            <p className="muted">
              Tries, clocks and what is marked done stay on record. Prints of issue {next.issue} are void from
              then on.
            </p>
          </Section>
          <PlanAgainForm
            key={`${next.way} ${next.version}`}
            job={{ id: next.jobId, version: next.version, way: next.way }}
            wayMade={next.wayMade}
            label={`Make issue ${next.issue + 1}`}
            isNeeded={changes.length > 0}
          />
        </div>
      ) : (
        <Notice title={`This job is ${next.status}`}>Its traveller stays as it is.</Notice>
      )}
    </>
  )
}
