import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { PlainShell } from '@/app/_ui/shell'
import { readWelcome } from '@/lib/records/person/read'
import { readShop } from '@/lib/records/shop/read'
import { WelcomeForm } from './welcome-form'

export const metadata: Metadata = { title: 'Welcome', referrer: 'no-referrer' }

/** Looking uses nothing up: a message program that opens the link to preview it does no harm. */
export default async function WelcomePage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params
  const [shop, link] = await Promise.all([readShop(), readWelcome(token)])
  if (!link) notFound()
  return (
    <PlainShell shopName={shop.name} narrow>
      {link.usable ? (
        <>
          <PageHead title={`Welcome, ${link.name}`}>
            You sign in as <span className="mono">{link.login}</span>. Choose the password you will use.
          </PageHead>
          <WelcomeForm token={token} login={link.login} />
        </>
      ) : (
        <>
          <PageHead title="This link is no longer good" />
          <Empty
            title={link.used ? 'It has been used once, and once is all' : 'It has run out'}
            action={<LinkButton href="/sign-in">Sign in</LinkButton>}
          >
            Ask the owner of the shop for a new one.
          </Empty>
        </>
      )}
    </PlainShell>
  )
}
