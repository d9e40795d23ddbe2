import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { readPerson } from '@/lib/records/person/read'
import { roleWords } from '@/lib/records/person/rules'
import { requireActor } from '@/lib/server/session'
import { AccountPress } from '../presses'
import { PersonForm } from './person-form'
import { PersonLink } from './person-link'

export const metadata: Metadata = { title: 'Person' }

export default async function PersonPage({ params }: { params: Promise<{ id: string }> }) {
  await requireActor('person.read')
  const asked = rowId((await params).id)
  const person = asked === null ? null : await readPerson(asked)
  if (!person) notFound()
  const { id, name, login, role, version, active, hasPassword } = person
  const email = person.email ?? ''
  return (
    <>
      <PageHead kind={roleWords[role].label} title={name} trail={[{ label: 'People', href: '/people' }]}>
        {active ? undefined : 'This account has ended: nobody can sign in with it.'}
      </PageHead>
      <Section title="Name and role">
        <PersonForm person={{ id, name, login, role, version, email }} />
      </Section>
      {active && (
        <Section title={hasPassword ? 'Forgotten password' : 'Invitation'}>
          <PersonLink person={{ id, name }} hasPassword={hasPassword} />
        </Section>
      )}
      <Section title={active ? 'End the account' : 'Restore the account'}>
        <p>
          {active
            ? 'Signs the person out everywhere at once. What they did stays under their name.'
            : 'Lets the person sign in again with the password they had.'}
        </p>
        <AccountPress person={{ id, active }} />
      </Section>
    </>
  )
}
