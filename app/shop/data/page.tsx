import type { Metadata } from 'next'
import { Button } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { formatDateTime } from '@/lib/core/format'
import { type Backups, readBackups } from '@/lib/records/backup/read'
import { byteText } from '@/lib/records/file/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Data' }

export default async function DataPage() {
  await requireActor('data.export')
  const [shop, backups] = await Promise.all([readShop(), readBackups()])
  const when = (iso: string) => formatDateTime(iso, { locale: 'en-US', timeZone: shop.timeZone })
  return (
    <>
      <PageHead title="The shop’s data" trail={[{ label: 'Shop', href: '/shop' }]} />
      <Section title="Backups">
        <BackupNews backups={backups} when={when} />
        {backups && backups.files.length > 0 && (
          <DataTable
            caption="Backups kept, newest first"
            rows={backups.files}
            rowKey={({ name }) => name}
            columns={[
              { key: 'at', head: 'Taken', title: true, cell: ({ takenAt }) => when(takenAt) },
              { key: 'size', head: 'Size', cell: ({ byteCount }) => byteText(byteCount) },
              { key: 'name', head: 'File', cell: ({ name }) => <span className="mono">{name}</span> },
            ]}
          />
        )}
        <div className="stack prose">
          <p>
            On the shop’s computer, in the program’s folder, <code>npm run backup</code> takes one at once,
            and <code>npm run restore -- FILE</code> puts one back into an empty shop. Nobody has to stop
            working for a backup.
          </p>
          {backups && (
            <p>
              They are in <span className="mono">{backups.folder}</span>, on the same computer. Copy them to
              another place too: a fire or a thief takes both.
            </p>
          )}
        </div>
      </Section>
      <Section title="A copy of everything">
        <p className="prose">
          One ZIP file: every record as CSV for a spreadsheet and as JSON, all attachments, and a list of the
          columns with their units. No passwords or PINs. That you took it is noted in the audit.
        </p>
        {/* A plain form: the browser saves what comes back, and needs no script for it. */}
        <form action="/shop/data/export" method="post">
          <Button type="submit" kind="primary">
            Download everything
          </Button>
        </form>
      </Section>
    </>
  )
}

function BackupNews({ backups, when }: { backups: Backups | null; when: (iso: string) => string }) {
  if (!backups) {
    return (
      <Notice kind="caution" title="No daily backup is taken">
        It is turned off (BENDWRIGHT_BACKUP=off), or the program was not started with npm start.
      </Notice>
    )
  }
  const { success, failure, plan } = backups.note
  const lastGood = success
    ? `The last good one is from ${when(success.at)} (${byteText(success.byteCount)}).`
    : 'There is no good one yet.'
  switch (backups.state) {
    case 'failed':
      return (
        <Notice kind="stop" title={`The backup failed on ${failure ? when(failure.at) : ''}`}>
          <p>{failure?.message}</p>
          <p>{lastGood} It is tried again every hour.</p>
        </Notice>
      )
    case 'late':
      return (
        <Notice kind="stop" title="There was no backup for more than two days">
          {lastGood} The program takes one a minute after it starts: was it running?
        </Notice>
      )
    case 'none-yet':
      return <Notice title="The first backup is taken a minute after the start">Look again then.</Notice>
    case 'good':
      return (
        <p>
          {lastGood} One is taken every day
          {plan && `; ${plan.dayCount} days and ${plan.weekCount} weeks are kept`}.
        </p>
      )
  }
}
