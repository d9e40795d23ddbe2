import { randomBytes } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { Readable } from 'node:stream'
import pg from 'pg'
import { beforeAll, beforeEach, describe, expect, inject, it } from 'vitest'
import { FORMAT, writeBackupFile } from '@/lib/launch/backup-file.mjs'
import { migrate } from '@/lib/launch/migrate.mjs'
import { compareBackup, restoreBackup } from '@/lib/launch/restore-backup.mjs'
import { fromRoot } from '@/lib/launch/root.mjs'
import { takeBackup } from '@/lib/launch/take-backup.mjs'
import { partFileForm } from '@/lib/records/file/schema'
import { addPartFile } from '@/lib/records/file/write'
import { addPart } from '@/lib/records/part/write'
import { db } from '@/lib/server/db'
import { parsedArm } from '../records/part/typed-part'
import { actorWithRole } from '../support/actor'
import { freshDatabase } from '../support/database'
import { temporaryFolder } from '../support/temporary-folder'

const folder = temporaryFolder()
const file = path.join(folder, 'shop.zip')
let shopUrl: string

/** A shop with awkward text, a frozen revision, an audit trail that forbids changes, and an attachment of random bytes. */
beforeAll(async () => {
  shopUrl = (await freshDatabase()).url
  const actor = await actorWithRole('owner', 'Øyvind "\\N" O’Neill\t\u{1f529}')
  await db.shop.create({ data: { name: 'Tide\nwrack', addressText: '\\.\n\\N' } })
  const customer = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
  const { id } = await addPart(parsedArm(customer.id), actor)
  await db.partRevision.updateMany({ where: { partId: id }, data: { frozenAt: new Date() } })
  const typed = new FormData()
  typed.set('partId', String(id))
  typed.set(
    'file',
    new File([new Uint8Array(Buffer.concat([Buffer.from('%PDF-1.7\n'), randomBytes(300_000)]))], 'a.pdf'),
  )
  await addPartFile(partFileForm.parse(typed), actor)
  await db.press.create({
    data: {
      shopNumber: 'PR-1',
      name: 'x',
      capacityKn: 0.1 + 0.2,
      supportNoseRadiusMm: 1e-7,
      minimumSpanMm: 1,
      maximumSpanMm: 2,
    },
  })
  // Ids that were given and are gone must not be given again.
  const gone = await db.customer.create({ data: { name: 'Gone' } })
  await db.customer.delete({ where: { id: gone.id } })
  await takeBackup({ databaseUrl: shopUrl, file })
})

async function emptyDatabase(): Promise<string> {
  const adminUrl = inject('databaseAdminUrl')
  const name = `restored_${randomBytes(6).toString('hex')}`
  await query(adminUrl, `create database "${name}"`)
  return adminUrl.replace(/\/postgres$/, `/${name}`)
}

async function query(url: string, sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return (await client.query(sql)).rows as Record<string, unknown>[]
  } finally {
    await client.end()
  }
}

describe('a backup', () => {
  it('comes back equal in a database that was never used, with its triggers, keys and series of ids', async () => {
    const url = await emptyDatabase()
    const { manifest } = await restoreBackup({ databaseUrl: url, file })
    expect(manifest.fileCount).toBe(1)
    const { differing } = await compareBackup({ databaseUrl: url, file })
    expect(differing).toEqual([])
    // Not by the code under test: the same rows, read as JSON text by PostgreSQL.
    for (const table of [
      'Shop',
      'User',
      'Customer',
      'Part',
      'PartRevision',
      'Bend',
      'StoredFile',
      'AuditEntry',
      'Press',
    ]) {
      const sql = `select md5(string_agg(to_jsonb(t)::text, ' ' order by to_jsonb(t)::text)) as sum from "${table}" t`
      expect([table, await query(url, sql)]).toEqual([table, await query(shopUrl, sql)])
    }
    await expect(query(url, `update "AuditEntry" set action = 'x'`)).rejects.toThrow('kept as it was written')
    await expect(query(url, `update "Bend" set "angleDeg" = 1`)).rejects.toThrow('frozen revision')
    await expect(query(url, `delete from "Customer"`)).rejects.toThrow('foreign key')
    const next = `insert into "Customer" (name) values ('Next') returning id`
    expect(await query(url, next)).toEqual([{ id: 3 }])
    const rules = `select conname, pg_get_constraintdef(oid) as rule from pg_constraint where connamespace = 'public'::regnamespace order by 1, 2`
    expect(await query(url, rules)).toEqual(await query(shopUrl, rules))
  })

  it('comes back in a database that has the tables and no rows', async () => {
    const url = await emptyDatabase()
    await migrate(url)
    await restoreBackup({ databaseUrl: url, file })
    expect((await compareBackup({ databaseUrl: url, file })).differing).toEqual([])
  })

  it('is compared with a shop that went on: the comparison names the table', async () => {
    const url = await emptyDatabase()
    await restoreBackup({ databaseUrl: url, file })
    // The next number after 1e-7 that a double can be.
    await query(url, `update "Press" set "supportNoseRadiusMm" = 1.0000000000000001e-7`)
    await query(url, `insert into "Source" (name) values ('new')`)
    expect((await compareBackup({ databaseUrl: url, file })).differing).toEqual([
      'Press has 1 rows as in the backup, but not the same',
      'Source has 1 rows, the backup 0',
    ])
  })

  it('holds one moment: what is written while it is taken is either all in it or not at all', async () => {
    const url = await emptyDatabase()
    await restoreBackup({ databaseUrl: url, file })
    const busy = new pg.Client({ connectionString: url })
    await busy.connect()
    let stop = false
    // Customer is copied long before Part: a backup that read tables at different moments would have more parts.
    const writing = (async () => {
      for (let n = 0; !stop; n += 1) {
        await busy.query(`with c as (insert into "Customer" (name) values ('c${n}') returning id)
          insert into "Part" (number, name, "customerId") select 'X-${n}', 'x', id from c`)
      }
    })()
    const busyFile = path.join(folder, 'busy.zip')
    await new Promise((resolve) => setTimeout(resolve, 100))
    await takeBackup({ databaseUrl: url, file: busyFile })
    stop = true
    await writing
    await busy.end()
    const again = await emptyDatabase()
    await restoreBackup({ databaseUrl: again, file: busyFile })
    const [counts] = await query(
      again,
      `select (select count(*)::int from "Customer") as customers, (select count(*)::int from "Part") as parts`,
    )
    expect(counts?.customers).toBe(counts?.parts)
    expect(Number(counts?.parts)).toBeGreaterThan(1)
  })
})

describe('a restore is refused', () => {
  const refusal = async (url: string, damaged: string, options = {}) =>
    restoreBackup({ databaseUrl: url, file: damaged, ...options }).then(
      () => 'restored',
      (error: Error) => error.message,
    )
  let target: string
  beforeEach(async () => {
    target = await emptyDatabase()
  })
  const untouched = async () =>
    expect(
      await query(
        target,
        `select count(*)::int as count from pg_class where relnamespace = 'public'::regnamespace`,
      ),
    ).toEqual([{ count: 0 }])

  it('into a shop that has a single row, and changes nothing there', async () => {
    await migrate(target)
    await query(target, `insert into "Customer" (name) values ('Only one')`)
    expect(await refusal(target, file)).toMatch(/^This shop is not empty/)
    expect(await query(target, 'select name from "Customer"')).toEqual([{ name: 'Only one' }])
  })

  it('wherever a byte of the file is damaged, before anything is touched', async () => {
    const whole = fs.readFileSync(file)
    const damaged = path.join(folder, 'damaged.zip')
    for (let turn = 0; turn < 24; turn += 1) {
      const at = Math.floor(((turn + 0.5) / 24) * whole.length)
      const bytes = Buffer.from(whole)
      bytes[at] = (bytes[at] ?? 0) ^ (1 << (turn % 8))
      fs.writeFileSync(damaged, bytes)
      expect([at, await refusal(target, damaged)]).toEqual([
        at,
        expect.stringMatching(/is damaged: its checksum/),
      ])
    }
    await untouched()
  })

  it('when a part is not what its list says, though the file was sealed so', async () => {
    const unlike = path.join(folder, 'unlike.zip')
    const entries = [{ name: 'tables/Customer', open: async () => Readable.from(['1\tKestrel\n']) }]
    await writeBackupFile(unlike, entries, async () => ({
      format: FORMAT,
      tables: [{ entry: 'tables/Customer', sha256: '0'.repeat(64) }],
      files: [],
    }))
    expect(await refusal(target, unlike)).toMatch(/is damaged: tables\/Customer is not what was written/)
    await untouched()
  })

  it('when the file was cut short, is empty, or is something else', async () => {
    const whole = fs.readFileSync(file)
    const other = path.join(folder, 'other.zip')
    for (const bytes of [
      whole.subarray(0, whole.length - 1),
      whole.subarray(0, 1000),
      Buffer.alloc(0),
      Buffer.from('PK'),
    ]) {
      fs.writeFileSync(other, bytes)
      expect(await refusal(target, other)).toMatch(/is no whole backup of Bendwright/)
    }
    expect(await refusal(target, path.join(folder, 'absent.zip'))).toMatch(/^There is no file/)
    await untouched()
  })

  it('when the backup has a migration that this version lacks', async () => {
    const older = fs.mkdtempSync(path.join(folder, 'older-'))
    expect(await refusal(target, file, { folder: older })).toMatch(
      /^The backup was made by a later Bendwright/,
    )
    await untouched()
  })
})

describe('a backup of an earlier version', () => {
  it('is restored as it was and then brought up to this one', async () => {
    const later = fs.mkdtempSync(path.join(folder, 'later-'))
    fs.cpSync(fromRoot('prisma', 'migrations'), later, { recursive: true })
    const name = '29990101000000_name_tides'
    fs.mkdirSync(path.join(later, name))
    fs.writeFileSync(
      path.join(later, name, 'migration.sql'),
      `alter table "Customer" add column "tideText" text; update "Customer" set "tideText" = 'spring ' || name`,
    )
    // Also where the later version has made its empty tables already, as npm start does.
    for (const migrated of [false, true]) {
      const url = await emptyDatabase()
      if (migrated) await migrate(url, later)
      const { applied } = await restoreBackup({ databaseUrl: url, file, folder: later })
      expect(applied).toEqual([name])
      expect(await query(url, 'select "tideText" from "Customer"')).toEqual([
        { tideText: 'spring Kestrel Harbour Works' },
      ])
      expect((await compareBackup({ databaseUrl: url, file })).differing).toEqual([])
    }
  })

  it('leaves nothing when loading fails half-way', async () => {
    const broken = fs.mkdtempSync(path.join(folder, 'broken-'))
    fs.cpSync(fromRoot('prisma', 'migrations'), broken, { recursive: true })
    const url = await emptyDatabase()
    await migrate(url, broken)
    // The last table alphabetically but one can't take its rows: everything before it was loaded by then.
    await query(url, `alter table "User" add constraint nobody check (id < 0)`)
    await expect(restoreBackup({ databaseUrl: url, file, folder: broken })).rejects.toThrow(
      'Nothing was restored',
    )
    expect(await query(url, 'select id from "Customer"')).toEqual([])
    await expect(query(url, `insert into "Contact" ("customerId", name) values (1, 'x')`)).rejects.toThrow(
      'foreign key',
    )
  })
})

it('a backup of which a part cannot be read is given up, and leaves no file', async () => {
  const half = async function* () {
    yield Buffer.from('half of it')
    throw new Error('the store went away')
  }
  const broken = path.join(folder, 'broken.zip')
  const entries = [{ name: 'files/a', open: async () => Readable.from(half()) }]
  await expect(writeBackupFile(broken, entries, async () => ({}))).rejects.toThrow('the store went away')
  expect(fs.readdirSync(folder).filter((name) => name.startsWith('broken.zip'))).toEqual([])
})

it('a backup never takes the place of another file', async () => {
  await expect(takeBackup({ databaseUrl: shopUrl, file })).rejects.toThrow('is there already')
  await expect(takeBackup({ databaseUrl: shopUrl, file: path.join(folder, 'no', 'x.zip') })).rejects.toThrow(
    'no folder',
  )
  expect(fs.readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([])
})
