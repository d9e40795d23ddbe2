import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { formatMass, formatTemperature } from '@/lib/core/format'
import { alloyInPot, type PotFacts } from '@/lib/records/filler-alloy/rules'
import { readShop } from '@/lib/records/shop/read'
import { readFillers } from '@/lib/records/tooling/read'
import { may, requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Fillers' }

type Pot = Pick<PotFacts, 'fillerId' | 'own'>

export default async function FillersPage() {
  const actor = await requireActor('tooling.read')
  const [shop, pots] = await Promise.all([readShop(), readFillers({ retired: true })])
  const isInch = shop.lengthUnit === 'in'
  const mass = (massKg: number) => formatMass(massKg, { unit: isInch ? 'lb' : 'kg', decimals: 2 })
  const melts = (pot: Pot) => {
    const alloy = alloyInPot(pot)
    if (!alloy) return 'not in the table'
    if (alloy.kind === 'sand') return 'does not melt'
    return formatTemperature(alloy.liquidusC, { unit: isInch ? 'F' : 'C' })
  }
  const metals = (pot: Pot) => {
    const alloy = alloyInPot(pot)
    const named = [alloy?.containsLead && 'lead', alloy?.containsCadmium && 'cadmium'].filter(Boolean)
    return named.length > 0 ? `holds ${named.join(' and ')}` : 'none'
  }
  const add = may(actor, 'tooling.write') && (
    <LinkButton kind="primary" href="/shop/fillers/new">
      Add a pot
    </LinkButton>
  )
  return (
    <>
      <PageHead title="Fillers" actions={add} />
      <DataTable
        caption="Pots of filler"
        captionHidden
        rows={pots}
        rowKey={(pot) => String(pot.id)}
        rowHref={(pot) => `/shop/fillers/${pot.id}`}
        empty={
          <Empty title="No pot yet">Low-melt alloy is kept by the kilogram: poured, recovered, lost.</Empty>
        }
        columns={[
          {
            key: 'number',
            head: 'Pot',
            title: true,
            cell: (pot) => `${pot.shopNumber} ${pot.name}`,
          },
          {
            key: 'melts',
            head: 'All molten at',
            cell: (pot) => melts(pot),
          },
          {
            key: 'inPot',
            head: 'In the pot',
            cell: (pot) => mass(pot.balance.inPotKg),
          },
          {
            key: 'out',
            head: 'Poured, not back',
            cell: (pot) => mass(Math.max(0, pot.balance.pouredKg - pot.balance.recoveredKg)),
          },
          {
            key: 'metals',
            head: 'Poisonous metals',
            cell: (pot) => metals(pot),
          },
          {
            key: 'state',
            head: 'State',
            cell: (pot) => (pot.retiredAt ? 'out of use' : 'in use'),
          },
        ]}
      />
    </>
  )
}
