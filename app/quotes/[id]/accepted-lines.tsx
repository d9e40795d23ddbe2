'use client'

import Link from 'next/link'
import { useRouter } from 'next/navigation'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { DateField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import { openJobForm } from '@/lib/records/quote/schema'
import { openJobAction } from '../actions'

type AcceptedLine = { id: string; label: string; dueOn: string; job: { id: number; number: string } | null }

/** What the customer took, each line with its job or the way to one. */
export function AcceptedLines({ lines, mayOpen }: { lines: readonly AcceptedLine[]; mayOpen: boolean }) {
  return (
    <Section title="Accepted: make the jobs">
      <ul className="ruled-list">
        {lines.map((line) => (
          <li key={line.id} className="stack stack-tight">
            <span>{line.label}</span>
            {line.job ? (
              <Link href={`/jobs/${line.job.id}`}>Job {line.job.number}</Link>
            ) : (
              mayOpen && <OpenJobForm line={line} />
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}

function OpenJobForm({ line }: { line: AcceptedLine }) {
  const router = useRouter()
  const { field, submit, status, saving } = useRecordForm({
    schema: openJobForm,
    start: { quoteLineId: line.id, dueOn: line.dueOn },
    action: openJobAction,
    onSaved: ({ jobId }) => router.push(`/jobs/${jobId}`),
  })
  return (
    <form method="post" onSubmit={submit} className="fields" noValidate>
      <DateField label="Due on" {...field('dueOn')} />
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Open the job
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
