import type { Metadata } from 'next'
import { PageHead } from '@/app/_ui/page-head'
import { readShop } from '@/lib/records/shop/read'
import { typedLength, typedNumber } from '@/lib/records/shop/rules'
import { may, requireActor } from '@/lib/server/session'
import { LogoForm } from './logo-form'
import { SettingsForm } from './settings-form'

export const metadata: Metadata = { title: 'Settings' }

export default async function SettingsPage() {
  const actor = await requireActor('shop.read')
  const shop = await readShop()
  const { lengthUnit, currency } = shop
  return (
    <>
      <PageHead title="Settings" />
      <SettingsForm
        key={lengthUnit}
        mayChange={may(actor, 'shop.write')}
        units={{ lengthUnit, currency }}
        timeZones={['UTC', ...Intl.supportedValuesOf('timeZone')]}
        start={{
          version: shop.version,
          name: shop.name,
          addressText: shop.addressText,
          contactText: shop.contactText,
          currency,
          lengthUnit,
          paper: shop.paper,
          timeZone: shop.timeZone,
          taxName: shop.taxName,
          taxPpm: typedNumber(shop.taxPpm / 10_000),
          quoteValidDays: String(shop.quoteValidDays),
          quoteTermsText: shop.quoteTermsText,
          pressUseFraction: typedNumber(Number((shop.pressUseFraction * 100).toPrecision(12))),
          gripMm: typedLength(shop.gripMm, lengthUnit),
          trimMm: typedLength(shop.trimMm, lengthUnit),
          kerfMm: typedLength(shop.kerfMm, lengthUnit),
        }}
      />
      <LogoForm logoId={shop.logoId} mayChange={may(actor, 'shop.write')} />
    </>
  )
}
