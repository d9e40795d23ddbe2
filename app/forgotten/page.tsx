import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { LinkButton } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { PlainShell } from '@/app/_ui/shell'
import { linksAreMailed } from '@/lib/records/person/read'
import { mailedLinkMinutes } from '@/lib/records/person/rules'
import { readShop } from '@/lib/records/shop/read'
import { ForgottenForm } from './forgotten-form'

export const metadata: Metadata = { title: 'Forgotten password' }

/** Says the same to everybody: who has an account here is nobody's business. */
export default async function ForgottenPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>
}) {
  const { asked } = await searchParams
  const shop = await readShop()
  if (!linksAreMailed()) notFound()
  return (
    <PlainShell shopName={shop.name} narrow>
      <PageHead title="Forgotten password">
        {asked === undefined ? 'A link to set a new password comes by mail.' : undefined}
      </PageHead>
      {asked === undefined ? (
        <ForgottenForm />
      ) : (
        <Notice
          title="Look into your mail"
          actions={<LinkButton href="/sign-in?with=password">Sign in</LinkButton>}
        >
          If this shop knows the name and an e-mail address for it, a link is on its way. It is good for{' '}
          {mailedLinkMinutes} minutes. Nothing comes? Ask the owner for a link.
        </Notice>
      )}
    </PlainShell>
  )
}
