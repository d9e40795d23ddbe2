import { createHash, randomBytes } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import pg from 'pg'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, inject, it, vi } from 'vitest'
import { objectStore } from '@/lib/launch/object-store.mjs'
import { restoreBackup } from '@/lib/launch/restore-backup.mjs'
import { takeBackup } from '@/lib/launch/take-backup.mjs'
import { fetchContent, keepContent } from '@/lib/server/file-store'
import { freshDatabase } from '../support/database'
import { signatureV4, startObjectStore } from '../support/object-store'
import { temporaryFolder } from '../support/temporary-folder'

it('the store of these tests signs as the published example is signed', () => {
  // Source: AWS, "Signature Calculations for the Authorization Header: Transferring Payload in a Single Chunk", GET Object.
  const headers = {
    host: 'examplebucket.s3.amazonaws.com',
    range: 'bytes=0-9',
    'x-amz-content-sha256': 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
    'x-amz-date': '20130524T000000Z',
  }
  const signature = signatureV4(
    {
      method: 'GET',
      path: '/test.txt',
      query: '',
      headers,
      signedHeaders: Object.keys(headers),
      region: 'us-east-1',
      at: '20130524T000000Z',
    },
    'wJalrXUtnFEMI/K7MDENG/bPxRfiCYEXAMPLEKEY',
  )
  expect(signature).toBe('f0e8bdb87c964420e857bd35b5d6ed310bd44f0170aba48dd91039c6036bdb41')
})

describe('attachments in an S3-compatible store', () => {
  let store: Awaited<ReturnType<typeof startObjectStore>>
  const secret = 'the secret of the tests'
  const settings = () => ({
    BENDWRIGHT_FILES: 's3',
    BENDWRIGHT_S3_ENDPOINT: store.url,
    BENDWRIGHT_S3_BUCKET: 'shop',
    BENDWRIGHT_S3_KEY: 'key',
    BENDWRIGHT_S3_SECRET: secret,
    BENDWRIGHT_S3_REGION: 'eu-north-1',
  })
  const content = new Uint8Array(randomBytes(200_000))
  const sha256 = createHash('sha256').update(content).digest('hex')

  beforeAll(async () => {
    store = await startObjectStore(secret)
  })
  afterAll(() => store.stop())
  beforeEach(() => {
    store.objects.clear()
    vi.resetModules()
    for (const [name, value] of Object.entries({ DATABASE_URL: 'postgresql://x', ...settings() }))
      vi.stubEnv(name, value)
    vi.spyOn(process.stderr, 'write').mockReturnValue(true)
  })
  afterEach(() => vi.unstubAllEnvs())

  /** The settings are read once a process, so each test loads the module anew. */
  const fresh = () => import('@/lib/server/file-store')

  it('are put there under their checksum, the row holds no content, and come back byte for byte', async () => {
    const files = await fresh()
    const kept = await files.keepContent(content, sha256)
    expect(kept).toEqual({ content: null, storageKey: `files/${sha256}` })
    expect([...store.objects.keys()]).toEqual([`/shop/files/${sha256}`])
    expect(
      Buffer.compare(Buffer.from(await files.fetchContent({ ...kept, sha256 })), Buffer.from(content)),
    ).toBe(0)
  })

  it('are refused in words where the secret is wrong, and nothing is kept', async () => {
    vi.stubEnv('BENDWRIGHT_S3_SECRET', 'another secret')
    const files = await fresh()
    await expect(files.keepContent(content, sha256)).rejects.toMatchObject({ code: 'no-file-store' })
    expect(store.objects.size).toBe(0)
    expect(store.refused.at(-1)).toBe(`PUT /shop/files/${sha256}`)
  })

  it('that were changed in the store are not given out', async () => {
    const files = await fresh()
    const kept = await files.keepContent(content, sha256)
    store.objects.set(`/shop/files/${sha256}`, Buffer.from('something else'))
    await expect(files.fetchContent({ ...kept, sha256 })).rejects.toMatchObject({ code: 'no-file-store' })
  })

  it('are in the backup, and restored into a store, or into the database where there is none', async () => {
    const { db, url } = await freshDatabase()
    const files = await fresh()
    const kept = await files.keepContent(content, sha256)
    const row = { name: 'a.pdf', mediaType: 'application/pdf', byteCount: content.length, sha256 }
    await db.storedFile.createMany({
      data: [
        { ...row, ...kept },
        { ...row, name: 'again.pdf', ...kept },
      ],
    })
    const folder = temporaryFolder()
    const file = path.join(folder, 'shop.zip')
    await takeBackup({ databaseUrl: url, file, store: await objectStore(settings()) })
    store.objects.clear()
    for (const target of [null, await objectStore(settings())]) {
      const restored = await newDatabase()
      await restoreBackup({ databaseUrl: restored, file, store: target })
      const client = new pg.Client({ connectionString: restored })
      await client.connect()
      const { rows } = await client.query(
        `select name, encode(sha256(content), 'hex') as sum, "storageKey" from "StoredFile" order by id`,
      )
      await client.end()
      const sum = target ? null : sha256
      const storageKey = target ? `files/${sha256}` : null
      expect(rows).toEqual([
        { name: 'a.pdf', sum, storageKey },
        { name: 'again.pdf', sum, storageKey },
      ])
      expect(store.objects.size).toBe(target ? 1 : 0)
    }
    await expect(takeBackup({ databaseUrl: url, file: path.join(folder, 'b.zip') })).rejects.toThrow(
      'does not say which',
    )
    store.objects.set(`/shop/files/${sha256}`, Buffer.from('something else'))
    const damaged = takeBackup({
      databaseUrl: url,
      file: path.join(folder, 'b.zip'),
      store: await objectStore(settings()),
    })
    await expect(damaged).rejects.toThrow('gave something else')
    expect(fs.readdirSync(folder)).toEqual(['shop.zip'])
  })
})

it('by default a file stays in the database', async () => {
  vi.stubEnv('DATABASE_URL', 'postgresql://x')
  const content = new Uint8Array([1, 2, 3])
  const kept = await keepContent(content, 'x')
  expect(kept).toEqual({ content, storageKey: null })
  expect(await fetchContent({ ...kept, sha256: 'x' })).toEqual(content)
  vi.unstubAllEnvs()
})

async function newDatabase(): Promise<string> {
  const adminUrl = inject('databaseAdminUrl')
  const name = `stored_${randomBytes(6).toString('hex')}`
  const client = new pg.Client({ connectionString: adminUrl })
  await client.connect()
  await client.query(`create database "${name}"`)
  await client.end()
  return adminUrl.replace(/\/postgres$/, `/${name}`)
}
