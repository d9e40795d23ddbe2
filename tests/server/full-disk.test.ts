import { spawnSync } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { PrismaPg } from '@prisma/adapter-pg'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { migrate } from '@/lib/launch/migrate.mjs'
import { startPostgres } from '@/lib/launch/postgres.mjs'
import { takeBackup } from '@/lib/launch/take-backup.mjs'
import { PrismaClient } from '@/lib/server/generated/prisma/client'
import { refusalOfTrouble, requireDiskSpace } from '@/lib/server/trouble'

/** A small disk of its own needs root and Linux; where there is neither, this file says so instead of passing. */
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-full-'))
const mounted =
  process.platform === 'linux' &&
  process.getuid?.() === 0 &&
  spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=260m,mode=0755', 'tmpfs', folder]).status === 0

describe.skipIf(!mounted)('a full disk (skipped without root, who alone can make a small one)', () => {
  let server: Awaited<ReturnType<typeof startPostgres>>
  let db: PrismaClient

  beforeAll(async () => {
    vi.stubEnv('BENDWRIGHT_DATABASE_DISK', folder)
    vi.stubEnv('BENDWRIGHT_LEAST_FREE_MB', '60')
    vi.stubEnv('DATABASE_URL', 'postgresql://not-asked')
    server = await startPostgres({ folder })
    await migrate(server.url)
    db = new PrismaClient({ adapter: new PrismaPg({ connectionString: server.url }) })
  })
  afterAll(async () => {
    await db.$disconnect()
    await server.stop()
    spawnSync('umount', [folder])
    fs.rmSync(folder, { recursive: true, force: true })
    vi.unstubAllEnvs()
  })

  const addFile = () => {
    const content = randomBytes(4_000_000)
    return db.storedFile.create({
      data: { name: 'x', mediaType: 'x', byteCount: content.length, sha256: 'x', content },
      select: { id: true },
    })
  }

  it('is told in words, reading goes on, nothing is harmed, and saving goes on once there is space', async () => {
    await requireDiskSpace()
    const { id } = await addFile()
    const before = await db.storedFile.findUniqueOrThrow({ where: { id } })

    // Somebody else's file takes the space down to what the shop keeps free: saving is refused before it is begun.
    const filler = path.join(folder, 'somebody-elses')
    const { bavail, bsize } = fs.statfsSync(folder)
    fs.writeFileSync(filler, Buffer.alloc(bavail * bsize - 50_000_000))
    await expect(requireDiskSpace()).rejects.toMatchObject({
      code: 'disk-full',
      message: expect.stringMatching(/disk of the shop’s computer is full.*not saved.*free some space/),
    })

    // And to the last byte: what the database then says is told the same way.
    fs.appendFileSync(filler, Buffer.alloc(46_000_000))
    let refused: unknown = null
    for (let turn = 0; turn < 12 && refused === null; turn += 1)
      refused = await addFile().then(
        () => null,
        (cause: unknown) => cause,
      )
    expect(refusalOfTrouble(refused)).toMatchObject({ code: 'disk-full' })

    const after = await db.storedFile.findUniqueOrThrow({ where: { id } })
    expect(Buffer.compare(Buffer.from(after.content ?? []), Buffer.from(before.content ?? []))).toBe(0)
    await expect(takeBackup({ databaseUrl: server.url, file: path.join(folder, 'b.zip') })).rejects.toThrow(
      'The disk is full',
    )
    expect(fs.readdirSync(folder).filter((name) => name.startsWith('b.zip'))).toEqual([])

    fs.rmSync(filler)
    await requireDiskSpace()
    const next = await addFile()
    expect(next.id).toBeGreaterThan(id)
    const whole = await db.$queryRaw<{ wrong: number }[]>`
      select count(*)::int as wrong from "StoredFile" where octet_length(content) <> "byteCount"`
    expect(whole).toEqual([{ wrong: 0 }])
  }, 60_000)
})

describe('what the machine says', () => {
  it('is found however deep a driver has wrapped it, and a bug stays a bug', () => {
    const wrapped = {
      code: 'P2010',
      meta: { driverAdapterError: { cause: { originalCode: '53100', kind: 'postgres' } } },
    }
    expect(refusalOfTrouble(wrapped)).toMatchObject({ code: 'disk-full' })
    expect(refusalOfTrouble(Object.assign(new Error('x'), { code: 'ECONNREFUSED' }))).toMatchObject({
      code: 'no-database',
    })
    expect(refusalOfTrouble(new Error('x'))).toBeNull()
    // The connection broke in the middle: whether it was saved nobody knows, so nobody may say that it was not.
    expect(refusalOfTrouble(Object.assign(new Error('x'), { code: '57P01' }))).toBeNull()
  })
})
