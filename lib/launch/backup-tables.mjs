import { createHash } from 'node:crypto'
import { Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { Stop } from './steps.mjs'

const quoted = (name) => `"${name.replaceAll('"', '""')}"`

/** How values are written as text must not depend on how a server happens to be set up: the checksums are of this text. */
const PLAIN_TEXT = `
  select set_config('TimeZone', 'UTC', true), set_config('DateStyle', 'ISO, YMD', true),
         set_config('IntervalStyle', 'postgres', true), set_config('bytea_output', 'hex', true),
         set_config('extra_float_digits', '1', true), set_config('client_encoding', 'UTF8', true)`

/** One moment of the whole database: what others write meanwhile is not seen, and nobody waits. */
export async function beginSnapshot(client) {
  await client.query('begin isolation level repeatable read read only')
  await client.query(PLAIN_TEXT)
}

export const writePlainText = (client) => client.query(PLAIN_TEXT)

/** Every table of the shop with its columns and the key its rows are sorted by. The ledger of migrations is not the shop's. */
export async function listTables(client) {
  const { rows } = await client.query(`
    select c.relname::text as name,
      (select array_agg(a.attname::text order by a.attnum) from pg_attribute a
        where a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped and a.attgenerated = '') as columns,
      (select array_agg(a.attname::text || case when a.attcollation <> 0 then '!' else '' end order by k.place)
        from pg_index i cross join unnest(i.indkey) with ordinality as k(attnum, place)
        join pg_attribute a on a.attrelid = c.oid and a.attnum = k.attnum
        where i.indrelid = c.oid and i.indisprimary) as key
    from pg_class c
    where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and c.relname <> '_prisma_migrations'
    order by c.relname collate "C"`)
  return rows.map(({ name, columns, key }) => {
    if (!key) throw new Stop(`The table ${name} has no primary key; its rows can't be put in order.`)
    return { name, columns, key }
  })
}

/** A text key is sorted by its bytes: the order must not depend on the language of the server. */
const sortedBy = (key) =>
  key
    .map((name) => (name.endsWith('!') ? `${quoted(name.slice(0, -1))} collate "C"` : quoted(name)))
    .join(', ')

/** All rows as PostgreSQL's COPY text, always in the same order. */
export async function copyOut(client, { name, columns, key }) {
  const { to } = await import('pg-copy-streams')
  const list = columns.map(quoted).join(', ')
  const rows = client.query(
    to(`copy (select ${list} from ${quoted(name)} order by ${sortedBy(key)}) to stdout`),
  )
  // Whoever reads the rows hears of a fault too; one that comes after they gave up must not end the program.
  rows.on('error', () => {})
  return rows
}

export async function copyIn(client, { name, columns }, source) {
  const { from } = await import('pg-copy-streams')
  await pipeline(
    source,
    client.query(from(`copy ${quoted(name)} (${columns.map(quoted).join(', ')}) from stdin`)),
  )
}

/** Lets bytes through, and knows their number, their lines and their SHA-256 at the end. */
export function measuring() {
  const hash = createHash('sha256')
  const measured = { byteCount: 0, rowCount: 0, sha256: '' }
  const stream = new Transform({
    transform(chunk, _encoding, done) {
      hash.update(chunk)
      measured.byteCount += chunk.length
      for (let at = chunk.indexOf(10); at !== -1; at = chunk.indexOf(10, at + 1)) measured.rowCount += 1
      done(null, chunk)
    },
    flush(done) {
      measured.sha256 = hash.digest('hex')
      done()
    },
  })
  return { stream, measured }
}

/** The same numbers of a table as it stands in the database now. */
export async function measureTable(client, table) {
  const { stream, measured } = measuring()
  stream.resume()
  await pipeline(await copyOut(client, table), stream)
  return measured
}

/** Where each series of ids stands, so that an id once given is never given again. */
export async function readSequences(client) {
  const { rows } = await client.query(
    `select sequencename::text as name, last_value::text as last from pg_sequences
     where schemaname = 'public' and last_value is not null order by 1`,
  )
  return rows
}

export async function setSequences(client, sequences) {
  for (const { name, last } of sequences) {
    await client.query('select setval($1::regclass, $2::bigint)', [quoted(name), last])
  }
}

/**
 * Loads rows in any order of tables: meanwhile no trigger speaks and no foreign key is checked. The keys are made again
 * afterwards, which checks every row. Needs no superuser, only the owner of the tables.
 */
export async function withoutRules(client, work) {
  const { rows: triggers } = await client.query(`
    select t.tgrelid::regclass::text as "table", quote_ident(t.tgname) as name, t.tgenabled as mode
    from pg_trigger t join pg_class c on c.oid = t.tgrelid
    where not t.tgisinternal and c.relnamespace = 'public'::regnamespace and t.tgenabled <> 'D'`)
  const { rows: keys } = await client.query(`
    select conrelid::regclass::text as "table", quote_ident(conname) as name, pg_get_constraintdef(oid) as definition
    from pg_constraint where contype = 'f' and connamespace = 'public'::regnamespace`)
  for (const { table, name } of triggers) await client.query(`alter table ${table} disable trigger ${name}`)
  for (const { table, name } of keys) await client.query(`alter table ${table} drop constraint ${name}`)
  await work()
  for (const { table, name, definition } of keys) {
    await client.query(`alter table ${table} add constraint ${name} ${definition}`)
  }
  const how = { O: 'enable', A: 'enable always', R: 'enable replica' }
  for (const { table, name, mode } of triggers) {
    await client.query(`alter table ${table} ${how[mode]} trigger ${name}`)
  }
}

/** Takes away the shop's empty tables, their types and functions; what belongs to an extension stays. */
export async function dropTables(client) {
  const { rows } = await client.query(`
    select format('drop table if exists %s cascade', c.oid::regclass) as statement from pg_class c
      where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and not ${ofExtension('c.oid')}
    union all
    select format('drop type if exists %s cascade', t.oid::regtype) from pg_type t
      where t.typtype = 'e' and t.typnamespace = 'public'::regnamespace and not ${ofExtension('t.oid')}
    union all
    select format('drop function if exists %s cascade', p.oid::regprocedure) from pg_proc p
      where p.prokind = 'f' and p.pronamespace = 'public'::regnamespace and not ${ofExtension('p.oid')}`)
  for (const { statement } of rows) await client.query(statement)
}

const ofExtension = (oid) => `exists (select 1 from pg_depend d where d.objid = ${oid} and d.deptype = 'e')`
