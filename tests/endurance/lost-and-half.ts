import type pg from 'pg'
import type { Acknowledged } from './shop-load'

/** Everything that was acknowledged and is not there as it was sent, in words. */
export async function lostRecords(client: pg.Client, kept: readonly Acknowledged[]): Promise<string[]> {
  const lost: string[] = []
  const check = async <Kind extends Acknowledged['kind']>(
    kind: Kind,
    sql: string,
    same: (row: Record<string, unknown>, said: Extract<Acknowledged, { kind: Kind }>) => boolean,
    keyOf: (said: Extract<Acknowledged, { kind: Kind }>) => unknown,
  ) => {
    const said = kept.filter((one): one is Extract<Acknowledged, { kind: Kind }> => one.kind === kind)
    const { rows } = await client.query<Record<string, unknown>>(sql, [said.map(keyOf)])
    const found = new Map(rows.map((row) => [String(row.key), row]))
    for (const one of said) {
      const row = found.get(String(keyOf(one)))
      if (!row || !same(row, one))
        lost.push(`${kind} ${String(keyOf(one))}: ${row ? 'not as it was sent' : 'gone'}`)
    }
  }
  await check(
    'customer',
    `select id as key, name from "Customer" where id = any($1::int[])`,
    (row, { name }) => row.name === name,
    ({ id }) => id,
  )
  await check(
    'part',
    `select id as key, name from "Part" where id = any($1::int[])`,
    (row, { name }) => row.name === name,
    ({ id }) => id,
  )
  await check(
    'file',
    `select id as key, encode(sha256(content), 'hex') as sha256, octet_length(content) as size from "StoredFile" where id = any($1::int[])`,
    (row, { sha256, byteCount }) => row.sha256 === sha256 && row.size === byteCount,
    ({ id }) => id,
  )
  await check(
    'try',
    `select "clientKey" as key, min("angleFinalDeg") as angle, count(*)::int as count from "BendRecord" where "clientKey" = any($1::text[]) group by 1`,
    (row, { angleDeg }) => row.angle === angleDeg && row.count === 1,
    ({ clientKey }) => clientKey,
  )
  return lost
}

/** What must never be found, however a write ended: each query lists records of which only a part is there. */
const halves: readonly (readonly [what: string, sql: string])[] = [
  [
    'a customer of the load without its two people or its line in the audit trail',
    `select c.id from "Customer" c where c.name like 'Load %' and (
       (select count(*) from "Contact" where "customerId" = c.id) <> 2
       or not exists (select 1 from "AuditEntry" where entity = 'Customer' and "entityId" = c.id::text))`,
  ],
  [
    'a part of the load without its revision, its two bends or its line in the audit trail',
    `select p.id from "Part" p where p.name like 'Load %' and (
       (select count(*) from "PartRevision" where "partId" = p.id) <> 1
       or (select count(*) from "Bend" b join "PartRevision" r on r.id = b."revisionId" where r."partId" = p.id) <> 2
       or not exists (select 1 from "AuditEntry" where entity = 'Part' and "entityId" = p.id::text))`,
  ],
  [
    'a file whose content is not what its row says, or without its line in the audit trail',
    `select f.id from "StoredFile" f where octet_length(content) <> "byteCount" or encode(sha256(content), 'hex') <> sha256
       or (name = 'load.pdf' and not exists (select 1 from "AuditEntry" a
         where a.entity = 'Part' and a.action = 'attached a file' and a.after ->> 'fileId' = f.id::text))`,
  ],
  [
    'a try without its reasons, its set-up or its line in the audit trail',
    `select r.id from "BendRecord" r where r.reasons is null or r.setup is null
       or not exists (select 1 from "AuditEntry" where entity = 'BendRecord' and "entityId" = r.id::text)`,
  ],
  [
    'a gap in the tries at one bend',
    `select "pieceId" as id from "BendRecord" group by "pieceId", "bendPosition"
       having max("tryNumber") <> count(*) or min("tryNumber") <> 1`,
  ],
  [
    'a line in the audit trail that tells of a record which is not there',
    `select id from "AuditEntry" a where
       (entity = 'Customer' and not exists (select 1 from "Customer" where id::text = "entityId"))
       or (entity = 'Part' and not exists (select 1 from "Part" where id::text = "entityId"))
       or (entity = 'BendRecord' and not exists (select 1 from "BendRecord" where id::text = "entityId"))`,
  ],
  [
    'a part number that will be given again',
    `select p.id from "Part" p join "NumberSeries" s on s.name = 'part' where substring(p.number from 3)::int >= s.next`,
  ],
]

export async function halfRecords(client: pg.Client): Promise<string[]> {
  const found: string[] = []
  for (const [what, sql] of halves) {
    const { rows } = await client.query<{ id: number }>(sql)
    if (rows.length > 0)
      found.push(
        `${what}: ${rows
          .slice(0, 5)
          .map(({ id }) => id)
          .join(', ')}`,
      )
  }
  return found
}
