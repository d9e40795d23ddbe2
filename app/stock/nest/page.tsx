import type { Metadata } from 'next'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { formatLength } from '@/lib/core/format'
import { nestPieces } from '@/lib/core/stock/nest'
import { readShop } from '@/lib/records/shop/read'
import { readFreeBars, readTubes } from '@/lib/records/stock/read'
import { rackWords, sizeWords } from '@/lib/records/stock/rules'
import { nestForm } from '@/lib/records/stock/schema'
import { may, requireActor } from '@/lib/server/session'
import './nest.css'
import { NestForm } from './nest-form'
import { nestInput, nestTexts } from './nest-question'
import { NestAnswer } from './nest-result'

export const metadata: Metadata = { title: 'Plan the cutting' }

type Asked = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function NestPage({ searchParams }: Asked) {
  const actor = await requireActor('stock.read')
  const [shop, tubes, query] = await Promise.all([readShop(), readTubes(), searchParams])
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const showPrices = may(actor, 'estimate.read')
  const shown = (mm: number) => formatLength(mm, { unit: shop.lengthUnit, decimals: 4 })
  const texts = nestTexts(query, {
    kerfMm: shown(shop.kerfMm),
    endTrimMm: shown(shop.trimMm),
    keepFromMm: shop.lengthUnit === 'in' ? '12 in' : '300 mm',
    offcutWorthPct: '50',
  })
  const tube = tubes.find(({ id }) => String(id) === texts.tube)
  const wasAsked = query.length !== undefined
  const parsed = wasAsked ? nestForm(units).safeParse(texts) : null
  const faults: Record<string, string> = {}
  for (const { path, message } of parsed?.error?.issues ?? []) faults[path.join('.')] ??= message
  if (wasAsked && !tube) faults.tube = 'Choose the tube'
  const free = tube ? await readFreeBars(tube) : []
  const input = parsed?.success && tube ? nestInput(parsed.data, free, tube.priceCentsPerM) : null
  const result = input && (await nestPieces(input))
  const nameOf = new Map(
    free.map((bar) => [
      `rack-${bar.id}`,
      `${bar.lot.number} bar ${bar.id}${bar.place || bar.lot.place ? ` at ${bar.place || bar.lot.place}` : ''}`,
    ]),
  )
  return (
    <>
      <PageHead title="Plan the cutting" trail={[{ label: 'Stock', href: '/stock' }]}>
        The least cost of tube for these pieces, out of what lies free on the rack and what can be bought.
      </PageHead>
      <div className="stack stack-loose">
        {tubes.length === 0 ? (
          <Empty title="No stock yet" action={<LinkButton href="/stock">To the stock</LinkButton>}>
            A plan is made for a tube that has been received at least once.
          </Empty>
        ) : (
          <>
            {input && result && (
              <NestAnswer
                input={input}
                result={result}
                rackName={(key) => nameOf.get(key) ?? key}
                shown={{ ...units, showPrices }}
              />
            )}
            {tube && (
              <p className="muted">
                Free on the rack of {tube.materialId} {sizeWords(tube, shop.lengthUnit)}:{' '}
                {rackWords(free, shop.lengthUnit)}.
              </p>
            )}
            <NestForm
              {...units}
              key={JSON.stringify(texts)}
              texts={texts}
              faults={faults}
              showPrices={showPrices}
              tubes={tubes.map((one) => ({
                value: String(one.id),
                label: `${one.materialId} ${sizeWords(one, shop.lengthUnit)}`,
              }))}
            />
          </>
        )}
      </div>
    </>
  )
}
