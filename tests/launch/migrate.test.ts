import { execFile } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { promisify } from 'node:util'
import pg from 'pg'
import { beforeEach, expect, inject, it } from 'vitest'
import { migrate } from '@/lib/launch/migrate.mjs'
import { ROOT } from '@/lib/launch/root.mjs'
import { temporaryFolder } from '@/tests/support/temporary-folder'

let url: string
let folder: string

beforeEach(async () => {
  folder = temporaryFolder()
  const name = `migrate_${process.hrtime.bigint()}`
  await query(inject('databaseAdminUrl'), `create database "${name}"`)
  url = inject('databaseAdminUrl').replace(/\/postgres$/, `/${name}`)
})

async function query(databaseUrl: string, sql: string): Promise<pg.QueryResultRow[]> {
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  try {
    return (await client.query<pg.QueryResultRow>(sql)).rows
  } finally {
    await client.end()
  }
}

function writeMigration(name: string, sql: string): void {
  fs.mkdirSync(path.join(folder, name), { recursive: true })
  fs.writeFileSync(path.join(folder, name, 'migration.sql'), sql)
}

it('applies each migration once, in the order of their names', async () => {
  writeMigration('2_add_b', 'alter table a add b int')
  writeMigration('1_create_a', 'create table a (id int)')
  expect(await migrate(url, folder)).toEqual(['1_create_a', '2_add_b'])
  expect(await migrate(url, folder)).toEqual([])
  writeMigration('3_add_c', 'alter table a add c int')
  expect(await migrate(url, folder)).toEqual(['3_add_c'])
})

it('a migration that fails half-way leaves nothing, and those before it stay', async () => {
  writeMigration('1_create_a', 'create table a (id int)')
  writeMigration('2_break', 'create table b (id int); insert into nowhere values (1);')
  await expect(migrate(url, folder)).rejects.toThrow('2_break failed and left nothing behind')
  expect(await query(url, `select tablename from pg_tables where tablename in ('a', 'b')`)).toEqual([
    { tablename: 'a' },
  ])
  writeMigration('2_break', 'create table b (id int)')
  expect(await migrate(url, folder)).toEqual(['2_break'])
})

it('a migration changed after it was applied is refused; other line ends are no change', async () => {
  writeMigration('1_create_a', 'create table a (id int);\n')
  await migrate(url, folder)
  writeMigration('1_create_a', 'create table a (id int);\r\n')
  expect(await migrate(url, folder)).toEqual([])
  writeMigration('1_create_a', 'create table a (id bigint);\n')
  await expect(migrate(url, folder)).rejects.toThrow('was changed after this database had it')
})

it('a database that a newer release has used is refused', async () => {
  writeMigration('1_create_a', 'create table a (id int)')
  writeMigration('2_from_later', 'create table b (id int)')
  await migrate(url, folder)
  fs.rmSync(path.join(folder, '2_from_later'), { recursive: true })
  await expect(migrate(url, folder)).rejects.toThrow('used by a newer Bendwright')
})

it('four processes that start at the same moment apply the shop’s whole history once', async () => {
  const program = `import { migrate } from '${pathToFileURL(path.join(ROOT, 'lib/launch/migrate.mjs')).href}'
    console.log(JSON.stringify(await migrate(process.argv[1])))`
  const asProcess = () =>
    promisify(execFile)(process.execPath, ['--input-type=module', '--eval', program, url], { cwd: ROOT })
  const answers = await Promise.all([1, 2, 3, 4].map(asProcess))
  const applied = answers.map(({ stdout }) => JSON.parse(stdout) as string[])
  const all = fs.readdirSync(path.join(ROOT, 'prisma/migrations')).filter((name) => /^\d+_/.test(name))
  // One of them applied everything while the others waited, and found nothing left to do.
  expect(applied.toSorted((a, b) => b.length - a.length)).toEqual([all.sort(), [], [], []])
})
