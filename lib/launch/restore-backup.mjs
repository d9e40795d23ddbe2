import { openBackupFile } from './backup-file.mjs'
import {
  copyIn,
  dropTables,
  listTables,
  measureTable,
  setSequences,
  withoutRules,
  writePlainText,
} from './backup-tables.mjs'
import {
  appliedChecksums,
  applyInTransaction,
  lockMigrations,
  migrate,
  readMigrations,
  refuseUnknown,
} from './migrate.mjs'
import { fromRoot } from './root.mjs'
import { Stop } from './steps.mjs'

/**
 * Puts a backup into an empty database: all of it or nothing. The tables are made as they were when the backup was taken,
 * filled, compared with the backup's checksums, and only then brought up to this version.
 * @param {{ databaseUrl: string, file: string, store?: { put: (key: string, content: Buffer) => Promise<unknown> } | null,
 *   folder?: string }} options
 */
export async function restoreBackup({
  databaseUrl,
  file,
  store = null,
  folder = fromRoot('prisma', 'migrations'),
}) {
  const backup = await openBackupFile(file)
  try {
    const level = migrationsOf(backup.manifest, readMigrations(folder))
    await withClient(databaseUrl, (client) => fill(client, backup, level, store, readMigrations(folder)))
    const applied = await migrate(databaseUrl, folder)
    return { manifest: backup.manifest, applied }
  } finally {
    backup.close()
  }
}

/** This version's migrations that the backup has had: the same, in the same words, or it is a backup of another program. */
function migrationsOf({ appVersion, migrations }, ours) {
  const known = new Map(ours.map((migration) => [migration.name, migration]))
  const unknown = migrations.filter(({ name }) => !known.has(name))
  if (unknown.length > 0) {
    throw new Stop(
      `The backup was made by a later Bendwright (${appVersion}; this one does not know ${unknown.map(({ name }) => name).join(', ')}). ` +
        'Restore it with that version or a later one.',
    )
  }
  const changed = migrations.filter(({ name, checksum }) => known.get(name).checksum !== checksum)
  if (changed.length > 0) {
    throw new Stop(
      `The backup's tables were made by another form of ${changed.map(({ name }) => name).join(', ')} than this one has, so they can't be made again here.`,
    )
  }
  return migrations.map(({ name }) => known.get(name))
}

async function fill(client, { manifest, open }, level, store, ours) {
  await lockMigrations(client)
  await client.query('begin')
  try {
    await writePlainText(client)
    const present = await appliedChecksums(client)
    refuseUnknown(present, ours)
    await refuseRows(client)
    if (!isSameLevel(present, level)) {
      await dropTables(client)
      await applyInTransaction(client, level)
    }
    await withoutRules(client, async () => {
      for (const table of manifest.tables) await copyIn(client, table, await open(table.entry))
    })
    await setSequences(client, manifest.sequences)
    const differing = await differences(client, manifest)
    if (differing.length > 0)
      throw new Stop(`What was restored is not what the backup holds: ${differing.join('; ')}.`)
    await placeFiles(client, manifest.files, open, store)
    await client.query('commit')
  } catch (error) {
    await client.query('rollback').catch(() => {})
    throw error instanceof Stop ? error : new Stop(`Nothing was restored: ${error.message}`)
  }
}

const isSameLevel = (present, level) =>
  present.size === level.length && level.every(({ name }) => present.has(name))

/** From here on nobody else writes until the restore is over, so that empty stays empty. */
async function refuseRows(client) {
  const tables = await listTables(client)
  if (tables.length === 0) return
  const names = tables.map(({ name }) => `"${name}"`)
  await client.query(`lock table ${names.join(', ')} in access exclusive mode`)
  for (const name of names) {
    const { rowCount } = await client.query(`select 1 from ${name} limit 1`)
    if (rowCount > 0) {
      throw new Stop(
        'This shop is not empty, and a restore never mixes with what is there or takes its place. Nothing was changed. ' +
          'Restore into an empty one: another data folder (BENDWRIGHT_DATA) or another database (DATABASE_URL).',
      )
    }
  }
}

/** Attachments that were outside the database go to this shop's store, or into the database where there is none. */
async function placeFiles(client, files, open, store) {
  for (const { key, entry } of files) {
    const chunks = []
    for await (const chunk of await open(entry)) chunks.push(chunk)
    const content = Buffer.concat(chunks)
    if (store) await store.put(key, content)
    else {
      const sql = 'update "StoredFile" set content = $1, "storageKey" = null where "storageKey" = $2'
      await client.query(sql, [content, key])
    }
  }
}

/** Compares a shop with a backup without changing either. Returns a line for each table that is not the same. */
export async function compareBackup({ databaseUrl, file }) {
  const backup = await openBackupFile(file)
  try {
    return await withClient(databaseUrl, async (client) => {
      await client.query('begin isolation level repeatable read read only')
      await writePlainText(client)
      return { manifest: backup.manifest, differing: await differences(client, backup.manifest) }
    })
  } finally {
    backup.close()
  }
}

async function differences(client, { tables }) {
  const here = new Map((await listTables(client)).map((table) => [table.name, table]))
  const lines = []
  for (const table of tables) {
    const columns = here.get(table.name)?.columns ?? []
    const lost = table.columns.filter((column) => !columns.includes(column))
    if (lost.length > 0) {
      lines.push(`${table.name} has no ${lost.join(', ')} in this version`)
      continue
    }
    const { rowCount, sha256 } = await measureTable(client, table)
    if (sha256 === table.sha256) continue
    lines.push(
      rowCount === table.rowCount
        ? `${table.name} has ${rowCount} rows as in the backup, but not the same`
        : `${table.name} has ${rowCount} rows, the backup ${table.rowCount}`,
    )
  }
  return lines
}

async function withClient(databaseUrl, work) {
  const { default: pg } = await import('pg')
  const client = new pg.Client({ connectionString: databaseUrl, application_name: 'bendwright restore' })
  client.on('error', () => {}) // the query under way reports it
  await client.connect()
  try {
    return await work(client)
  } finally {
    await client.end().catch(() => {})
  }
}
