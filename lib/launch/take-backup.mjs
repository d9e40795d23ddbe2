import fs from 'node:fs'
import { Readable } from 'node:stream'
import { FORMAT, writeBackupFile } from './backup-file.mjs'
import { beginSnapshot, copyOut, listTables, readSequences } from './backup-tables.mjs'
import { appliedChecksums } from './migrate.mjs'
import { fromRoot } from './root.mjs'
import { Stop } from './steps.mjs'

/**
 * Writes everything a shop has into one file, as it stood at one moment, while the shop goes on working.
 * @param {{ databaseUrl: string, file: string, store?: { get: (key: string) => Promise<Buffer> } | null, now?: Date }} options
 */
export async function takeBackup({ databaseUrl, file, store = null, now = new Date() }) {
  const { default: pg } = await import('pg')
  const client = new pg.Client({ connectionString: databaseUrl, application_name: 'bendwright backup' })
  client.on('error', () => {}) // the query under way reports it
  await client.connect()
  try {
    await beginSnapshot(client)
    const migrations = [...(await appliedChecksums(client))]
      .map(([name, checksum]) => ({ name, checksum }))
      .sort(byName)
    if (migrations.length === 0)
      throw new Stop('There is no shop in this database yet, so there is nothing to back up.')
    const tables = await listTables(client)
    const files = await storedOutside(client, tables)
    if (files.length > 0 && !store) {
      throw new Stop(
        'Some attachments are in a file store, and BENDWRIGHT_FILES does not say which. Set it as it was.',
      )
    }
    const entries = [
      ...tables.map((table) => ({ name: `tables/${table.name}.copy`, open: () => copyOut(client, table) })),
      ...files.map(({ key }) => ({
        name: `files/${key}`,
        open: async () => Readable.from([await store.get(key)]),
      })),
    ]
    const { version } = JSON.parse(fs.readFileSync(fromRoot('package.json'), 'utf8'))
    let totals
    const written = await writeBackupFile(file, entries, async (measured) => {
      for (const { key, sha256 } of files) {
        if (measured.get(`files/${key}`).sha256 !== sha256) {
          throw new Stop(
            `The file store gave something else for ${key} than was put there. The backup was not made.`,
          )
        }
      }
      const described = tables.map(({ name, columns, key }) => {
        const entry = `tables/${name}.copy`
        return { name, entry, columns, key, ...measured.get(entry) }
      })
      totals = {
        tableCount: tables.length,
        rowCount: described.reduce((sum, { rowCount }) => sum + rowCount, 0),
        fileCount: Number((await client.query('select count(*) as count from "StoredFile"')).rows[0].count),
      }
      return {
        format: FORMAT,
        madeAt: now.toISOString(),
        appVersion: version,
        ...totals,
        migrations,
        sequences: await readSequences(client),
        tables: described,
        files: files.map(({ key }) => ({ key, entry: `files/${key}`, ...measured.get(`files/${key}`) })),
      }
    })
    return { file, ...written, ...totals }
  } finally {
    await client.end().catch(() => {})
  }
}

const byName = (a, b) => (a.name < b.name ? -1 : 1)

/** Attachments kept in a store beside the database; one that two rows name is there once. */
async function storedOutside(client, tables) {
  if (!tables.some(({ name, columns }) => name === 'StoredFile' && columns.includes('storageKey'))) return []
  const { rows } = await client.query(
    `select distinct "storageKey" as key, sha256 from "StoredFile" where "storageKey" is not null order by 1`,
  )
  return rows
}
