import { LinkButton } from '@/app/_ui/button'
import { PageHead } from '@/app/_ui/page-head'

export type PartNeed = 'part.read' | 'part.write' | 'quote.write' | 'customer.read'

/** Head of every screen of a part: whose it is, which revision, and the way to its other screens. */
export function PartHead({
  part,
  revision,
  allows,
}: {
  part: {
    id: number
    number: string
    name: string
    customerRef: string
    customer: { id: number; name: string }
  }
  revision: { letter: string; frozenAt: Date | null }
  /** Whether who asks may do it. */
  allows: (needs: PartNeed) => boolean
}) {
  const seesCustomer = allows('customer.read')
  return (
    <>
      <PageHead
        kind={`Part ${part.number}, revision ${revision.letter}${revision.frozenAt ? ', frozen' : ''}`}
        title={part.name}
        trail={[
          { label: 'Parts', href: '/parts' },
          { label: part.customer.name, ...(seesCustomer && { href: `/customers/${part.customer.id}` }) },
        ]}
        actions={
          allows('part.write') && (
            <>
              {allows('quote.write') && (
                <LinkButton kind="primary" href={`/quotes/new?customer=${part.customer.id}&part=${part.id}`}>
                  Quote it
                </LinkButton>
              )}
              <LinkButton href={`/parts/${part.id}/edit`}>Change</LinkButton>
            </>
          )
        }
      >
        {part.customerRef && `Their number: ${part.customerRef}`}
      </PageHead>
    </>
  )
}
