import type { Metadata } from 'next'
import Link from 'next/link'
import { rowId } from '@/app/_shop/row-id'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { formatDateTime } from '@/lib/core/format'
import { readRateHistory, readRates } from '@/lib/records/rates/read'
import { rateDifferences, typedRates } from '@/lib/records/rates/rules'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { RatesForm } from './rates-form'
import './rates.css'

export const metadata: Metadata = { title: 'Rates' }

const sheetsShown = 10

export default async function RatesPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>
}) {
  const actor = await requireActor('shop.read')
  const before = rowId(String((await searchParams).before ?? ''))
  const [shop, current, history] = await Promise.all([
    readShop(),
    readRates(),
    readRateHistory({ beforeId: before ?? undefined, take: sheetsShown }),
  ])
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const moment = (at: Date) =>
    formatDateTime(at.toISOString(), {
      locale: 'en-US',
      timeZone: shop.timeZone,
    })
  const oldest = history.length > sheetsShown ? history[sheetsShown - 1] : undefined
  return (
    <>
      <PageHead title="Rates">
        In force since {moment(current.createdAt)}. Estimates keep the rates they were made with.
      </PageHead>
      <RatesForm
        key={current.id}
        baseId={current.id}
        units={units}
        mayChange={may(actor, 'shop.write')}
        start={typedRates(current.rates, units)}
        standard={typedRates(defaultShopRates, units)}
      />
      <Section title="How the rates came about" id="history">
        <ol className="ruled-list">
          {history.slice(0, sheetsShown).map((sheet, index) => {
            const earlier = history[index + 1]
            const differences = earlier ? rateDifferences(earlier.rates, sheet.rates, units) : []
            return (
              <li key={sheet.id}>
                <p className="strong">
                  {moment(sheet.createdAt)}, {sheet.createdBy?.name ?? 'the program'}: {sheet.reasonText}
                </p>
                <ul className="plain-list">
                  {differences.map(({ path, label, before: was, after }) => (
                    <li key={path}>
                      {label}: {was} → {after}
                    </li>
                  ))}
                </ul>
              </li>
            )
          })}
        </ol>
        {oldest && <Link href={`/shop/rates?before=${oldest.id}#history`}>Earlier changes</Link>}
      </Section>
    </>
  )
}
