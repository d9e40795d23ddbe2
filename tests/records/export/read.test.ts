import { createHash, randomBytes } from 'node:crypto'
import { promisify } from 'node:util'
import { beforeAll, describe, expect, it, vi } from 'vitest'
import yauzl from 'yauzl'
import { readExport } from '@/lib/records/export/read'
import { noteExport } from '@/lib/records/export/write'
import { partFileForm } from '@/lib/records/file/schema'
import { addPartFile } from '@/lib/records/file/write'
import { addPart } from '@/lib/records/part/write'
import { db } from '@/lib/server/db'
import { roleMay } from '@/lib/server/permissions'
import { actorWithRole } from '../../support/actor'
import { freshDatabase } from '../../support/database'
import { refuseHistory } from '../../support/half-way'
import { parsedArm } from '../part/typed-part'

const drawing = Buffer.concat([Buffer.from('%PDF-1.7\n'), randomBytes(120_000)])
const secret = 'argon2-of-nobody-knows'
let entries: Map<string, Buffer>

async function unzip(body: ReadableStream<Uint8Array>): Promise<Map<string, Buffer>> {
  const bytes = Buffer.from(await new Response(body).arrayBuffer())
  const zip = await promisify<Buffer, yauzl.Options, yauzl.ZipFile>(yauzl.fromBuffer)(bytes, {
    lazyEntries: true,
  })
  const found = new Map<string, Buffer>()
  return new Promise((resolve, reject) => {
    zip.on('entry', (entry: yauzl.Entry) => {
      zip.openReadStream(entry, (error, stream) => {
        if (error) return reject(error)
        const chunks: Buffer[] = []
        stream.on('data', (chunk: Buffer) => chunks.push(chunk))
        stream.on('end', () => {
          found.set(entry.fileName, Buffer.concat(chunks))
          zip.readEntry()
        })
      })
    })
    zip.on('end', () => resolve(found))
    zip.on('error', reject)
    zip.readEntry()
  })
}

const text = (name: string) =>
  entries
    .get(name)
    ?.toString('utf8')
    .replace(/^\ufeff/, '') ?? `no ${name}`
const json = (name: string) => JSON.parse(text(name)) as Record<string, unknown>[]

beforeAll(async () => {
  await freshDatabase()
  const actor = await actorWithRole('owner')
  await db.shop.create({ data: { name: 'Tide: wrack' } })
  await db.user.update({ where: { id: actor.userId }, data: { passwordHash: secret, pinHash: secret } })
  await db.session.create({
    data: { tokenHash: secret, userId: actor.userId, expiresAt: new Date(Date.now() + 1e6) },
  })
  await db.oneTimeLink.create({ data: { tokenHash: secret, userId: actor.userId, expiresAt: new Date() } })
  await db.device.create({ data: { name: 'Bench tablet', tokenHash: secret, admittedById: actor.userId } })
  const customer = await db.customer.create({
    data: { name: '=HYPERLINK("http://x","y"), "Ltd"', notesText: 'one\ntwo' },
  })
  await db.customer.createMany({ data: Array.from({ length: 450 }, (_, n) => ({ name: `Customer ${n}` })) })
  const { id } = await addPart(parsedArm(customer.id), actor)
  const typed = new FormData()
  typed.set('partId', String(id))
  typed.set('file', new File([new Uint8Array(drawing)], 'arm: "final"?.pdf'))
  await addPartFile(partFileForm.parse(typed), actor)
  entries = await unzip((await readExport()).body)
})

describe('the export', () => {
  it('has each table as CSV and as JSON, but for those that only open the door', async () => {
    const tables = await db.$queryRaw<{ name: string }[]>`
      select tablename::text as name from pg_tables where schemaname = 'public' and tablename <> '_prisma_migrations'`
    const closed = ['Session', 'OneTimeLink', 'SignInAttempt', 'SubmitKey']
    const wanted = tables.map(({ name }) => name).filter((name) => !closed.includes(name))
    expect(wanted.length).toBeGreaterThan(30)
    for (const name of wanted) {
      expect([name, entries.has(`csv/${name}.csv`), Array.isArray(json(`json/${name}.json`))]).toEqual([
        name,
        true,
        true,
      ])
    }
    for (const name of closed) expect([...entries.keys()].filter((entry) => entry.includes(name))).toEqual([])
  })

  it('holds no password, PIN or token in any file, under no name', () => {
    for (const [name, bytes] of entries) expect([name, bytes.includes(secret)]).toEqual([name, false])
    expect(Object.keys(json('json/User.json')[0] ?? {})).not.toContain('passwordHash')
    expect(json('json/Device.json')).toMatchObject([{ name: 'Bench tablet' }])
  })

  it('holds every row once, over more than one batch, as the database has it', async () => {
    const rows = json('json/Customer.json')
    const kept = await db.customer.findMany({ orderBy: { id: 'asc' }, select: { id: true, name: true } })
    expect(rows.map(({ id, name }) => ({ id, name }))).toEqual(kept)
    expect(kept).toHaveLength(451)
    // The quoted line break of the first customer is one more line; the head is one.
    expect(text('csv/Customer.csv').trimEnd().split('\n')).toHaveLength(451 + 1 + 1)
  })

  it('keeps a name that a spreadsheet would run as a formula from being one', () => {
    const line = text('csv/Customer.csv').split('\r\n')[1]
    expect(line).toContain(`"'=HYPERLINK(""http://x"",""y""), ""Ltd"""`)
    expect(json('json/Customer.json')[0]?.name).toBe('=HYPERLINK("http://x","y"), "Ltd"')
  })

  it('has the attachments byte for byte, under names that every system takes', () => {
    const file = entries.get('files/1 arm_ _final__.pdf')
    expect(file && createHash('sha256').update(file).digest('hex')).toBe(
      createHash('sha256').update(drawing).digest('hex'),
    )
    expect(text('csv/StoredFile.csv').split('\r\n')[0]).not.toMatch(/(^|,)content(,|$)/)
  })

  it('says of each column what it is in, what it refers to and what it means', () => {
    const lines = text('columns.csv').split('\r\n')
    expect(lines).toContain('PartRevision,heightMm,double precision,mm,,In the bend plane.')
    expect(lines).toContain('Part,customerId,integer,,the id of a Customer,')
    expect(lines.find((line) => line.startsWith('StockLot,priceCentsPerM,'))).toContain(
      'hundredths of the currency unit per metre,',
    )
    // A number with a unit in its name must not stand there without one.
    const unitless = lines.filter((line) =>
      /^\w+,\w+(Mm|Deg|Kn|MPa|Kg|Cents|Minutes|Fraction|Pct|Ppm),[^,]*,,/.test(line),
    )
    expect(unitless).toEqual([])
  })
})

describe('an export that ends early', () => {
  // Much more than the buffers on the way hold, so that the reading is still under way.
  beforeAll(async () => {
    const notesText = randomBytes(1500).toString('hex')
    await db.customer.createMany({ data: Array.from({ length: 3000 }, () => ({ name: 'Long', notesText })) })
  })
  const readersLeft = async () =>
    (
      await db.$queryRaw<unknown[]>`select 1 from pg_stat_activity
        where datname = current_database() and application_name = 'bendwright export'`
    ).length

  it('breaks off when the database goes away, and does not wait for ever', async () => {
    const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
    const reader = (await readExport()).body.getReader()
    await reader.read()
    await db.$executeRaw`select pg_terminate_backend(pid) from pg_stat_activity
      where datname = current_database() and application_name = 'bendwright export'`
    const toTheEnd = async () => {
      while (!(await reader.read()).done);
    }
    await expect(toTheEnd()).rejects.toThrow()
    await vi.waitFor(() => expect(said.mock.calls.join()).toContain('export failed'))
    said.mockRestore()
  })

  it('lets the database go when whoever asked has gone away, and that is no failure', async () => {
    const said = vi.spyOn(process.stderr, 'write')
    for (const chunkCount of [0, 1, 3]) {
      const reader = (await readExport()).body.getReader()
      for (let chunk = 0; chunk < chunkCount; chunk += 1) await reader.read()
      await reader.cancel()
    }
    await vi.waitFor(async () => expect(await readersLeft()).toBe(0))
    // An error that nobody caught would come now, and fail the run.
    await new Promise((resolve) => setTimeout(resolve, 300))
    expect(said).not.toHaveBeenCalled()
  })
})

it('only the owner may take it, and that it was taken stands in the audit trail', async () => {
  expect(['owner', 'office', 'bench'].filter((role) => roleMay(role as 'owner', 'data.export'))).toEqual([
    'owner',
  ])
  const actor = await actorWithRole('owner')
  await noteExport(actor)
  expect(await db.auditEntry.findFirst({ orderBy: { id: 'desc' } })).toMatchObject({
    action: 'took a copy of all data',
    actorId: actor.userId,
  })
  await refuseHistory()
  await expect(noteExport(actor)).rejects.toThrow('history is refused')
})
