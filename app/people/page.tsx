import type { Metadata } from 'next'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { formatDate, formatDateTime } from '@/lib/core/format'
import { readPeople } from '@/lib/records/person/read'
import { roleWords } from '@/lib/records/person/rules'
import { readDevices, readSessions } from '@/lib/records/session/read'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { AdmitDeviceForm } from './admit-device-form'
import { InviteForm } from './invite-form'
import { EndSession, RevokeDevice } from './presses'

export const metadata: Metadata = { title: 'People' }

export default async function PeoplePage() {
  await requireActor('person.read')
  const [shop, people, sessions, { devices, hereId }] = await Promise.all([
    readShop(),
    readPeople(),
    readSessions(),
    readDevices(),
  ])
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  const moment = (at: Date) => formatDateTime(at.toISOString(), place)
  const state = (person: (typeof people)[number]) => {
    if (!person.active) return 'Ended'
    if (person.hasPassword) return 'May sign in'
    const link = person.oneTimeLinks[0]
    if (!link) return 'Has no password yet'
    return link.expiresAt > new Date()
      ? `Invited, link good until ${formatDate(link.expiresAt.toISOString(), place)}`
      : 'Invited, link has run out'
  }
  return (
    <>
      <PageHead title="People" />
      <Section title="Accounts">
        <DataTable
          caption="Everybody who has or had an account"
          captionHidden
          rows={people}
          rowKey={(person) => String(person.id)}
          rowHref={(person) => `/people/${person.id}`}
          columns={[
            { key: 'name', head: 'Name', title: true, cell: (person) => person.name },
            {
              key: 'login',
              head: 'Sign-in name',
              cell: (person) => <span className="mono">{person.login}</span>,
            },
            { key: 'role', head: 'Role', cell: (person) => roleWords[person.role].label },
            { key: 'state', head: 'Account', cell: state },
            { key: 'pin', head: 'PIN', cell: (person) => (person.hasPin ? 'set' : 'none') },
            {
              key: 'seen',
              head: 'Last seen',
              cell: (person) => (person.sessions[0] ? moment(person.sessions[0].lastSeenAt) : '–'),
            },
          ]}
        />
      </Section>
      <Section title="Invite somebody">
        <InviteForm />
      </Section>
      <Section title="Signed in now">
        <DataTable
          caption="Open sessions"
          captionHidden
          rows={sessions}
          rowKey={(session) => session.tokenHash}
          columns={[
            { key: 'who', head: 'Who', title: true, cell: (session) => session.user.name },
            {
              key: 'where',
              head: 'Where',
              cell: (session) =>
                `${session.device?.name ?? deviceWords(session.agentText)}, ${session.addressText}`,
            },
            { key: 'since', head: 'Since', cell: (session) => moment(session.createdAt) },
            { key: 'seen', head: 'Last seen', cell: (session) => moment(session.lastSeenAt) },
            {
              key: 'end',
              head: 'End it',
              cell: (session) =>
                session.here ? (
                  'this browser'
                ) : (
                  <EndSession tokenHash={session.tokenHash} who={session.user.name} />
                ),
            },
          ]}
        />
      </Section>
      <Section title="Bench devices">
        <p className="muted">
          On an admitted phone or tablet people sign in with a PIN. A PIN opens the bench’s screens and no
          price, whoever types it, and lasts twelve hours.
        </p>
        <DataTable
          caption="Admitted devices"
          captionHidden
          rows={devices}
          rowKey={(device) => String(device.id)}
          empty={<p>No device is admitted yet.</p>}
          columns={[
            { key: 'name', head: 'Device', title: true, cell: (device) => device.name },
            {
              key: 'admitted',
              head: 'Admitted',
              cell: (device) => `${moment(device.admittedAt)} by ${device.admittedBy.name}`,
            },
            {
              key: 'state',
              head: 'State',
              cell: (device) =>
                device.revokedAt ? (
                  `revoked ${moment(device.revokedAt)}`
                ) : (
                  <RevokeDevice id={device.id} name={device.name} here={device.id === hereId} />
                ),
            },
          ]}
        />
        {hereId === null && <AdmitDeviceForm />}
      </Section>
    </>
  )
}

/** Enough of a browser's long name to tell a phone from the office machine. */
function deviceWords(agentText: string): string {
  const browser = /(Firefox|Edg|OPR|Chrome|Safari)/.exec(agentText)?.[1] ?? 'a browser'
  const system = /(iPhone|iPad|Android|Windows|Mac OS|Linux)/.exec(agentText)?.[1] ?? ''
  const name = { Edg: 'Edge', OPR: 'Opera' }[browser] ?? browser
  return system ? `${name} on ${system}` : name
}
