import type { Metadata } from 'next'
import Link from 'next/link'
import { rowId } from '@/app/_shop/row-id'
import { Button, LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { Empty } from '@/app/_ui/empty'
import { SelectField, TextField } from '@/app/_ui/field'
import { PageHead } from '@/app/_ui/page-head'
import { formatDateTime } from '@/lib/core/format'
import { readAudit, readAuditChoices } from '@/lib/records/audit/read'
import { auditDifferences, nameInWords, recordHref } from '@/lib/records/audit/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Audit' }

type Asked = { entity: string; id: string; person: string; text: string; before: string }

export default async function AuditPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>
}) {
  await requireActor('audit.read')
  const query = await searchParams
  const one = (name: keyof Asked) => {
    const value = query[name]
    return typeof value === 'string' ? value.trim().slice(0, 200) : ''
  }
  const asked: Asked = {
    entity: one('entity'),
    id: one('id'),
    person: one('person'),
    text: one('text'),
    before: one('before'),
  }
  const [shop, choices, { entries, nextBeforeId }] = await Promise.all([
    readShop(),
    readAuditChoices(),
    readAudit({
      entity: asked.entity,
      entityId: asked.id,
      actorId: rowId(asked.person) ?? undefined,
      text: asked.text,
      beforeId: /^[1-9]\d{0,17}$/.test(asked.before) ? BigInt(asked.before) : undefined,
    }),
  ])
  return (
    <>
      <PageHead title="Audit">
        Who did what, when, from what to what. Nobody can change or remove a line.
      </PageHead>
      <form method="get" className="stack">
        <div className="fields">
          <SelectField
            label="Record"
            name="entity"
            placeholder="All"
            choices={choices.entities.map((entity) => ({ value: entity, label: nameInWords(entity) }))}
            defaultValue={asked.entity}
          />
          <TextField label="Its number in the address" name="id" defaultValue={asked.id} maxLength={40} />
          <SelectField
            label="Person"
            name="person"
            placeholder="Everybody"
            choices={choices.people.map(({ id, name }) => ({ value: String(id), label: name }))}
            defaultValue={asked.person}
          />
          <TextField label="Words in the line" name="text" defaultValue={asked.text} maxLength={100} />
        </div>
        <div className="row">
          <Button type="submit">Show</Button>
          {Object.values(asked).some(Boolean) && (
            <LinkButton kind="quiet" href="/audit">
              Everything
            </LinkButton>
          )}
        </div>
      </form>
      <DataTable
        caption="Audit lines, newest first"
        captionHidden
        rows={entries}
        rowKey={(entry) => String(entry.id)}
        empty={<Empty title="No line fits">Ask for less, or for everything.</Empty>}
        columns={[
          {
            key: 'at',
            head: 'When',
            title: true,
            cell: (entry) =>
              formatDateTime(entry.at.toISOString(), { locale: 'en-US', timeZone: shop.timeZone }),
          },
          { key: 'who', head: 'Who', cell: (entry) => entry.actorText },
          {
            key: 'what',
            head: 'What',
            cell: (entry) => [entry.action, entry.detailText].filter(Boolean).join(': '),
          },
          {
            key: 'record',
            head: 'Record',
            cell: (entry) => {
              const name = `${nameInWords(entry.entity)} ${entry.entityId}`
              const href = recordHref(entry.entity, entry.entityId)
              return href ? <Link href={href}>{name}</Link> : name
            },
          },
          {
            key: 'changed',
            head: 'Changed',
            cell: (entry) => <Changes before={entry.before} after={entry.after} units={shop} />,
          },
        ]}
      />
      {nextBeforeId && (
        <p>
          <LinkButton href={`/audit?${new URLSearchParams({ ...asked, before: nextBeforeId })}`}>
            Earlier
          </LinkButton>
        </p>
      )}
    </>
  )
}

function Changes({
  before,
  after,
  units,
}: {
  before: unknown
  after: unknown
  units: { lengthUnit: 'in' | 'mm'; currency: string }
}) {
  const differences = auditDifferences(before, after, units)
  if (differences.length === 0) return '–'
  return (
    <details>
      <summary>{differences.length === 1 ? '1 value' : `${differences.length} values`}</summary>
      <ul className="plain-list small">
        {differences.map((difference) => (
          <li key={difference.name}>
            {difference.name}: {before === null ? '' : `${difference.before} → `}
            {difference.after}
          </li>
        ))}
      </ul>
    </details>
  )
}
