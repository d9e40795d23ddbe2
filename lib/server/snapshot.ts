import 'server-only'
import pg from 'pg'
import { env } from '@/lib/server/env'

export type SnapshotTable = {
  name: string
  columns: { name: string; type: string; refersTo: string | null }[]
  key: string[]
}

const batchSize = 200
const quoted = (name: string) => `"${name.replaceAll('"', '""')}"`

/**
 * One moment of the whole database, read a few rows at a time whatever its size. A connection of its own: a long
 * reading must not hold one that people's screens wait for.
 */
export async function openSnapshot() {
  const client = new pg.Client({
    connectionString: env().DATABASE_URL,
    application_name: 'bendwright export',
  })
  client.on('error', () => {}) // the query under way reports it
  await client.connect()
  await client.query(`begin isolation level repeatable read read only; set local timezone to 'UTC'`)

  async function tables(): Promise<SnapshotTable[]> {
    const { rows } = await client.query<SnapshotTable>(`
      select c.relname::text as name,
        (select json_agg(json_build_object('name', a.attname, 'type', format_type(a.atttypid, a.atttypmod), 'refersTo',
            (select f.confrelid::regclass::text from pg_constraint f
              where f.contype = 'f' and f.conrelid = c.oid and f.conkey = array[a.attnum] limit 1)) order by a.attnum)
          from pg_attribute a where a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped) as columns,
        (select json_agg(a.attname order by k.place)
          from pg_index i cross join unnest(i.indkey) with ordinality as k(attnum, place)
          join pg_attribute a on a.attrelid = c.oid and a.attnum = k.attnum
          where i.indrelid = c.oid and i.indisprimary) as key
      from pg_class c
      where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and c.relname <> '_prisma_migrations'
      order by c.relname`)
    return rows.map((table) => ({
      ...table,
      columns: table.columns.map((column) => ({
        ...column,
        refersTo: column.refersTo?.replaceAll('"', '') ?? null,
      })),
    }))
  }

  /** The rows' chosen columns as JSON text, in the order of the key. */
  async function* rows(table: SnapshotTable, columns: readonly string[]): AsyncGenerator<string[]> {
    const list = columns.map(quoted).join(', ')
    await client.query(`declare reading cursor for
      select row_to_json(chosen)::text as text from
        (select ${list} from ${quoted(table.name)} order by ${table.key.map(quoted).join(', ')}) chosen`)
    try {
      for (;;) {
        const batch = await client.query<{ text: string }>(`fetch ${batchSize} from reading`)
        if (batch.rows.length === 0) return
        yield batch.rows.map(({ text }) => text)
      }
    } finally {
      await client.query('close reading')
    }
  }

  return { tables, rows, close: () => client.end() }
}

export type Snapshot = Awaited<ReturnType<typeof openSnapshot>>
