import crypto from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { fromRoot } from './root.mjs'
import { Stop } from './steps.mjs'

/** The number `prisma migrate` locks with too, so that the two never run at the same time. */
const LOCK_NUMBER = 72707369

/** The layout of `prisma migrate`'s own table, so that a developer may use either on the same database. */
const LEDGER = `create table if not exists "_prisma_migrations" (
  id varchar(36) primary key, checksum varchar(64) not null, finished_at timestamptz, migration_name varchar(255) not null,
  logs text, rolled_back_at timestamptz, started_at timestamptz not null default now(), applied_steps_count integer not null default 0)`

/** Applies what is missing of prisma/migrations, in order, one transaction each. Returns the names applied. */
export async function migrate(databaseUrl, folder = fromRoot('prisma', 'migrations')) {
  const { default: pg } = await import('pg')
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  try {
    await lockMigrations(client)
    await client.query(LEDGER)
    const done = await appliedChecksums(client)
    const migrations = readMigrations(folder)
    refuseUnknown(done, migrations)
    const applied = []
    for (const migration of migrations) {
      const known = done.get(migration.name)
      if (known === undefined) {
        await applyOne(client, migration)
        applied.push(migration.name)
      } else if (known !== migration.checksum) {
        throw new Stop(
          `The migration ${migration.name} was changed after this database had it. Put the file back as it was, and write a new migration instead.`,
        )
      }
    }
    return applied
  } finally {
    await client.end()
  }
}

/** Held until the connection ends: one process at a time changes what tables there are. */
export const lockMigrations = (client) => client.query('select pg_advisory_lock($1)', [LOCK_NUMBER])

export function readMigrations(folder) {
  if (!fs.existsSync(folder)) return []
  return fs
    .readdirSync(folder)
    .filter((name) => fs.existsSync(path.join(folder, name, 'migration.sql')))
    .sort()
    .map((name) => {
      // Checked out with CRLF on some machines, and still the same migration.
      const sql = fs.readFileSync(path.join(folder, name, 'migration.sql'), 'utf8').replaceAll('\r\n', '\n')
      return { name, sql, checksum: crypto.createHash('sha256').update(sql).digest('hex') }
    })
}

/** Names and checksums of what this database has had; empty for one that was never used. */
export async function appliedChecksums(client) {
  const { rows: found } = await client.query(
    `select to_regclass('public."_prisma_migrations"') is not null as "there"`,
  )
  if (!found[0].there) return new Map()
  const { rows } = await client.query(
    'select migration_name, checksum from "_prisma_migrations" where finished_at is not null and rolled_back_at is null',
  )
  return new Map(rows.map((row) => [row.migration_name, row.checksum]))
}

/** An older program on a newer database would write rows the newer one does not understand. */
export function refuseUnknown(done, migrations) {
  const names = new Set(migrations.map(({ name }) => name))
  const unknown = [...done.keys()].filter((name) => !names.has(name))
  if (unknown.length > 0) {
    throw new Stop(
      `This database was used by a newer Bendwright (it has ${unknown.join(', ')}, which this one does not know). ` +
        'Start the newer one, or restore a backup taken before it.',
    )
  }
}

async function applyOne(client, migration) {
  await client.query('begin')
  try {
    await applyInTransaction(client, [migration])
    await client.query('commit')
  } catch (error) {
    await client.query('rollback')
    throw new Stop(`The migration ${migration.name} failed and left nothing behind: ${error.message}`)
  }
}

/** Makes the tables as these migrations make them, and notes each, in the transaction of whoever calls. */
export async function applyInTransaction(client, migrations) {
  await client.query(LEDGER)
  for (const { name, sql, checksum } of migrations) {
    await client.query(sql)
    await client.query(
      'insert into "_prisma_migrations" (id, checksum, migration_name, finished_at, applied_steps_count) values ($1, $2, $3, now(), 1)',
      [crypto.randomUUID(), checksum, name],
    )
  }
}
