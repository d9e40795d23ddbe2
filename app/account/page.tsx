import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { formatDateTime } from '@/lib/core/format'
import { readPerson } from '@/lib/records/person/read'
import { roleWords } from '@/lib/records/person/rules'
import { readSessions } from '@/lib/records/session/read'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { EndOtherSessions, PasswordForm, PinSection } from './own-forms'

export const metadata: Metadata = { title: 'Account' }

export default async function AccountPage() {
  const actor = await requireActor('own.password')
  const [shop, person, sessions] = await Promise.all([
    readShop(),
    readPerson(actor.userId),
    readSessions({ userId: actor.userId }),
  ])
  if (!person) notFound()
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  return (
    <div className="stack stack-loose">
      <PageHead title="Account" />
      <Section title="You">
        <Facts
          facts={[
            ['Name', person.name],
            [
              'Sign-in name',
              <span className="mono" key="login">
                {person.login}
              </span>,
            ],
            ['Role', `${roleWords[person.role].label}: ${roleWords[person.role].meaning.toLowerCase()}`],
            ...(actor.role === person.role
              ? []
              : [
                  [
                    'Now',
                    'Signed in with a PIN: the bench only. Sign in with your password for the rest.',
                  ] as const,
                ]),
          ]}
        />
      </Section>
      <Section title="Password">
        <PasswordForm login={person.login} />
      </Section>
      <Section title="PIN for bench devices">
        <PinSection hasPin={person.hasPin} />
      </Section>
      <Section title="Where you are signed in">
        <ul className="ruled-list">
          {sessions.map((session) => (
            <li key={session.tokenHash}>
              {session.device?.name ?? session.addressText}, last seen{' '}
              {formatDateTime(session.lastSeenAt.toISOString(), place)}
              {session.here && ' (here)'}
            </li>
          ))}
        </ul>
        {sessions.some(({ here }) => !here) && <EndOtherSessions />}
        <p className="muted">A new password signs you out everywhere but here.</p>
      </Section>
    </div>
  )
}
