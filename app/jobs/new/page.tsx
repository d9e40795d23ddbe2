import type { Metadata } from 'next'
import Link from 'next/link'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { wayKeys, wayNames } from '@/lib/core/cost/ways'
import { readQuotableParts, readQuoteCustomers } from '@/lib/records/quote/read'
import { dayInZone } from '@/lib/records/quote/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { NewJobForm } from './new-job-form'

export const metadata: Metadata = { title: 'New job' }

const dayMs = 86_400_000
const usualDays = 14

/** A job that no quote stands behind: whose, which part, how many, until when, which way. */
export default async function NewJobPage({
  searchParams,
}: {
  searchParams: Promise<{ customer?: string; part?: string }>
}) {
  await requireActor('job.write')
  const [params, customers, shop] = await Promise.all([searchParams, readQuoteCustomers(), readShop()])
  const customer = customers.find(({ id }) => String(id) === params.customer)
  const trail = [{ label: 'Jobs', href: '/jobs' }]
  if (!customer) {
    return (
      <>
        <PageHead title="Whom is the job for?" kind="New job, without a quote" trail={trail} />
        {customers.length === 0 ? (
          <Empty
            title="No customers yet"
            action={<LinkButton href="/customers/new">Enter the first customer</LinkButton>}
          />
        ) : (
          <ul className="ruled-list">
            {customers.map(({ id, name }) => (
              <li key={id}>
                <Link href={`/jobs/new?customer=${id}`}>{name}</Link>
              </li>
            ))}
          </ul>
        )}
      </>
    )
  }
  const parts = await readQuotableParts(customer.id)
  const chosen = parts.find(({ id }) => String(id) === params.part) ?? parts[0]
  const today = dayInZone(new Date(), shop.timeZone)
  return (
    <>
      <PageHead title={`Job for ${customer.name}`} kind="New job, without a quote" trail={trail} />
      {chosen ? (
        <NewJobForm
          parts={parts.map(({ number, name, revision }) => ({
            value: String(revision.id),
            label: `${number} revision ${revision.letter}: ${name}`,
          }))}
          ways={wayKeys.map((value) => ({ value, label: wayNames[value] }))}
          start={{
            revisionId: String(chosen.revision.id),
            dueOn: new Date(+today + usualDays * dayMs).toISOString().slice(0, 10),
          }}
        />
      ) : (
        <Empty
          title="This customer has no parts yet"
          action={<LinkButton href={`/parts/new?customer=${customer.id}`}>Enter a part</LinkButton>}
        />
      )}
    </>
  )
}
