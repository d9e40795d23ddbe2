import 'server-only'
import { readFile as readFromDisk } from 'node:fs/promises'
import path from 'node:path'
import { Readable } from 'node:stream'
import yazl from 'yazl'
import { type CsvCell, csvText } from '@/lib/core/csv'
import {
  exportedFileName,
  exportReadme,
  isSecretColumn,
  isSecretTable,
  schemaNotes,
  unitOfColumn,
} from '@/lib/records/export/rules'
import { readFile } from '@/lib/records/file/read'
import { cleanFileName } from '@/lib/records/file/rules'
import { db } from '@/lib/server/db'
import { log } from '@/lib/server/log'
import { openSnapshot, type Snapshot, type SnapshotTable } from '@/lib/server/snapshot'

type ExportTable = SnapshotTable & { shown: string[] }

/** A file's content is in the export as a file. */
const shownColumns = (table: SnapshotTable): string[] =>
  table.columns
    .map(({ name }) => name)
    .filter((name) => !isSecretColumn(name) && !(table.name === 'StoredFile' && name === 'content'))

const typeOf = (table: SnapshotTable, name: string) =>
  table.columns.find((column) => column.name === name)?.type ?? ''

/** Everything the shop has kept, as a ZIP that is written while it is read: no size of shop needs memory for it. */
export async function readExport(): Promise<{ body: ReadableStream<Uint8Array>; name: string }> {
  const at = new Date().toISOString()
  const schema = await readFromDisk(path.join(process.cwd(), 'prisma', 'schema.prisma'), 'utf8')
  const shop = await db.shop.findUniqueOrThrow({ where: { id: 1 }, select: { name: true } })
  const snapshot = await openSnapshot()
  try {
    const tables = (await snapshot.tables())
      .filter(({ name }) => !isSecretTable(name))
      .map((table) => ({ ...table, shown: shownColumns(table) }))
    const files = await filesOf(snapshot, tables)
    const zip = new yazl.ZipFile()
    const out = zip.outputStream as Readable
    /** The download breaks off, which the browser shows as failed: half an export must not look like one. */
    const breakOff = (cause: Error) => {
      if (out.destroyed) return // whoever asked has gone away, and the reading was ended for that
      log.error('export failed', cause)
      out.destroy(cause)
    }
    out.on('error', () => {}) // told by breakOff
    zip.on('error', breakOff)
    const add = (name: string, parts: () => AsyncGenerator<string | Uint8Array>) =>
      zip.addReadStreamLazy(name, (give) => {
        // The archive does not listen for what fails while it reads.
        give(null, Readable.from(parts(), { objectMode: false }).on('error', breakOff))
      })
    zip.addBuffer(Buffer.from(exportReadme(shop.name, at)), 'README.txt')
    zip.addBuffer(Buffer.from(columnsText(tables, schema)), 'columns.csv')
    for (const table of tables) {
      add(`csv/${table.name}.csv`, () => csvOf(snapshot, table))
      add(`json/${table.name}.json`, () => jsonOf(snapshot, table))
    }
    for (const { id, name } of files) {
      add(exportedFileName(id, cleanFileName(name)), async function* () {
        const file = await readFile(id)
        if (file) yield await file.content()
      })
    }
    zip.end()
    out.once('close', () => void snapshot.close())
    const day = at.slice(0, 10)
    return {
      body: Readable.toWeb(out) as ReadableStream<Uint8Array>,
      name: `${cleanFileName(shop.name)} ${day}.zip`,
    }
  } catch (cause) {
    await snapshot.close()
    throw cause
  }
}

async function* jsonOf(snapshot: Snapshot, table: ExportTable): AsyncGenerator<string> {
  let lead = '[\n'
  for await (const batch of snapshot.rows(table, table.shown)) {
    yield lead + batch.join(',\n')
    lead = ',\n'
  }
  yield lead === '[\n' ? '[]\n' : '\n]\n'
}

async function* csvOf(snapshot: Snapshot, table: ExportTable): AsyncGenerator<string> {
  // The mark at the beginning lets spreadsheets see that this is UTF-8.
  yield `\ufeff${csvText([table.shown])}`
  for await (const batch of snapshot.rows(table, table.shown)) {
    yield csvText(batch.map((text) => cellsOf(JSON.parse(text) as Record<string, unknown>, table.shown)))
  }
}

function cellsOf(row: Record<string, unknown>, columns: readonly string[]): CsvCell[] {
  return columns.map((column) => {
    const value = row[column]
    if (value === null || value === undefined) return null
    if (typeof value === 'string' || typeof value === 'number') return value
    return typeof value === 'boolean' ? String(value) : JSON.stringify(value)
  })
}

async function filesOf(
  snapshot: Snapshot,
  tables: readonly ExportTable[],
): Promise<{ id: number; name: string }[]> {
  const table = tables.find(({ name }) => name === 'StoredFile')
  const found: { id: number; name: string }[] = []
  if (!table) return found
  for await (const batch of snapshot.rows(table, ['id', 'name'])) {
    found.push(...batch.map((text) => JSON.parse(text) as { id: number; name: string }))
  }
  return found
}

function columnsText(tables: readonly ExportTable[], schema: string): string {
  const notes = schemaNotes(schema)
  const rows = tables.flatMap((table) => [
    [table.name, '', '', '', '', notes.get(table.name) ?? ''],
    ...table.shown.map((name) => {
      const refersTo = table.columns.find((column) => column.name === name)?.refersTo
      return [
        table.name,
        name,
        typeOf(table, name).replaceAll('"', ''),
        unitOfColumn(name, typeOf(table, name)),
        refersTo ? `the id of a ${refersTo}` : '',
        notes.get(`${table.name}.${name}`) ?? '',
      ]
    }),
  ])
  return `\ufeff${csvText([['table', 'column', 'type', 'unit', 'refers to', 'meaning'], ...rows])}`
}
