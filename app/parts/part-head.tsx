import { LinkButton } from '@/app/_ui/button'
import { PageHead } from '@/app/_ui/page-head'
import { SectionNav } from '@/app/_ui/section-nav'
import { type Actor, may } from '@/lib/server/session'

export type PartPlace = 'drawing' | 'ways' | 'stock' | 'estimate' | 'asks' | 'decision'

const places: readonly (readonly [
  PartPlace,
  string,
  'part.read' | 'stock.read' | 'estimate.read' | 'ask.read' | 'decision.read',
])[] = [
  ['drawing', 'Drawing and spec', 'part.read'],
  ['ways', 'Ways', 'estimate.read'],
  ['stock', 'Stock', 'stock.read'],
  ['estimate', 'Estimate', 'estimate.read'],
  ['asks', 'Asks', 'ask.read'],
  ['decision', 'Decision', 'decision.read'],
]

/** Head of every screen of a part: whose it is, which revision, and the way to its other screens. */
export function PartHead({
  part,
  revision,
  current,
  actor,
}: {
  part: {
    id: number
    number: string
    name: string
    customerRef: string
    customer: { id: number; name: string }
  }
  revision: { letter: string; frozenAt: Date | null }
  current: PartPlace
  actor: Actor
}) {
  const seesCustomer = may(actor, 'customer.read')
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
          may(actor, 'part.write') && (
            <>
              {may(actor, 'quote.write') && (
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
          .filter(([, , needs]) => may(actor, needs))
          .map(([place, label]) => ({
            href: place === 'drawing' ? `/parts/${part.id}` : `/parts/${part.id}/${place}`,
            label,
            current: place === current,
          }))}
      />
    </>
  )
}
