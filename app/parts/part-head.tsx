import { LinkButton } from '@/app/_ui/button'
import { PageHead } from '@/app/_ui/page-head'
import { SectionNav } from '@/app/_ui/section-nav'

export type PartNeed =
  | 'part.read'
  | 'part.write'
  | 'quote.write'
  | 'customer.read'
  | 'estimate.read'
  | 'ask.read'
  | 'decision.read'

/** Where a part's screens and their sections are, below its own address. A new screen of a part gets its line here. */
const places = [
  { place: 'drawing', at: '#drawing', label: 'Drawing' },
  { place: 'set-up', at: '#set-up', label: 'Set-up' },
  { place: 'spec', at: '#spec', label: 'Bend spec' },
  { place: 'ways', at: '/ways', label: 'Ways' },
  { place: 'estimate', at: '/estimate', label: 'Estimate', needs: 'estimate.read' },
  { place: 'asks', at: '/asks', label: 'Asks', needs: 'ask.read' },
  { place: 'decision', at: '/decision', label: 'Decision', needs: 'decision.read' },
  { place: 'templates', at: '/templates', label: 'Templates' },
  { place: 'files', at: '#files', label: 'Files' },
  { place: 'revisions', at: '#revisions', label: 'Revisions' },
  { place: 'history', at: '#history', label: 'History' },
] as const

export type PartPlace = (typeof places)[number]['place']

/** Head of every screen of a part: whose it is, which revision, and the way to its other screens. */
export function PartHead({
  part,
  revision,
  allows,
  current,
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
  current: PartPlace
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
      <SectionNav
        label="Screens of this part"
        links={places
          .filter((one) => !('needs' in one) || allows(one.needs))
          .map(({ place, at, label }) => ({
            href: `/parts/${part.id}${at}`,
            label,
            current: place === current,
          }))}
      />
    </>
  )
}
