import type { Metadata } from 'next'
import Link from 'next/link'
import { redirect } from 'next/navigation'
import { PageHead } from '@/app/_ui/page-head'
import { SectionNav } from '@/app/_ui/section-nav'
import { PlainShell } from '@/app/_ui/shell'
import { linksAreMailed } from '@/lib/records/person/read'
import { readPinSignIn } from '@/lib/records/session/read'
import { ownSitePath } from '@/lib/records/session/rules'
import { readShop } from '@/lib/records/shop/read'
import { currentActor } from '@/lib/server/session'
import { ForgetBench } from './forget-bench'
import { PinForm } from './pin-form'
import { SignInForm } from './sign-in-form'

export const metadata: Metadata = { title: 'Sign in' }

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>
}) {
  const asked = await searchParams
  const then = ownSitePath(typeof asked.then === 'string' ? asked.then : undefined)
  if (await currentActor()) redirect(then)
  const [shop, pin] = await Promise.all([readShop(), readPinSignIn()])
  const mailed = linksAreMailed()
  const byPin = pin !== null && pin.people.length > 0 && asked.with !== 'password'
  const hrefWith = (way: 'pin' | 'password') => `/sign-in?${new URLSearchParams({ with: way, then })}`
  return (
    <PlainShell shopName={shop.name} narrow>
      <ForgetBench />
      <PageHead title="Sign in">{pin ? `This device is ${pin.deviceName}.` : undefined}</PageHead>
      {pin && pin.people.length > 0 && (
        <SectionNav
          label="Way to sign in"
          links={[
            { href: hrefWith('pin'), label: 'PIN', current: byPin },
            { href: hrefWith('password'), label: 'Password', current: !byPin },
          ]}
        />
      )}
      {byPin ? <PinForm then={then} people={pin.people} /> : <SignInForm then={then} />}
      <p className="muted">
        {byPin && 'A PIN opens the bench. For prices and settings, sign in with your password.'}
        {!byPin && !mailed && 'Forgotten your password? The owner can give you a link to set a new one.'}
        {!byPin && mailed && <Link href="/forgotten">Forgotten your password?</Link>}
      </p>
    </PlainShell>
  )
}
