import type { Metadata } from 'next'
import Link from 'next/link'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { readQuotableParts, readQuoteCustomers } from '@/lib/records/quote/read'
import { requireActor } from '@/lib/server/session'
import { NewQuoteForm } from './new-quote-form'

export const metadata: Metadata = { title: 'New quote' }

export default async function NewQuotePage({
  searchParams,
}: {
  searchParams: Promise<{ customer?: string; part?: string }>
}) {
  await requireActor('quote.write')
  const params = await searchParams
  const customers = await readQuoteCustomers()
  const customer = customers.find(({ id }) => String(id) === params.customer)
  const trail = [{ label: 'Quotes', href: '/quotes' }]
  if (!customer) {
    return (
      <>
        <PageHead title="Whom is the quote for?" kind="New quote" trail={trail} />
        {customers.length === 0 ? (
          <Empty
            title="No customers yet"
            action={<LinkButton href="/customers/new">Enter the first customer</LinkButton>}
          />
        ) : (
          <ul className="ruled-list">
            {customers.map(({ id, name }) => (
              <li key={id}>
                <Link href={`/quotes/new?customer=${id}`}>{name}</Link>
              </li>
            ))}
          </ul>
        )}
      </>
    )
  }
  const parts = await readQuotableParts(customer.id)
  return (
    <>
      <PageHead title={`Quote for ${customer.name}`} kind="New quote" trail={trail} />
      {parts.length === 0 ? (
        <Empty
          title="This customer has no parts yet"
          action={<LinkButton href={`/parts/new?customer=${customer.id}`}>Enter a part</LinkButton>}
        />
      ) : (
        <NewQuoteForm customerId={customer.id} parts={parts} chosenPartId={Number(params.part) || null} />
      )}
    </>
  )
}
