import { createHash, randomBytes } from 'node:crypto'
import { beforeEach, describe, expect, it } from 'vitest'
import { readFile, readPartFiles } from '@/lib/records/file/read'
import { partFileForm } from '@/lib/records/file/schema'
import { addPartFile, detachPartFile, reattachPartFile } from '@/lib/records/file/write'
import { addPart } from '@/lib/records/part/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '../../support/actor'
import { freshDatabase } from '../../support/database'
import { refuseHistory } from '../../support/half-way'
import { parsedArm } from '../part/typed-part'

let actor: Actor
let partId: number

beforeEach(async () => {
  await freshDatabase()
  actor = await actorWithRole('office')
  const customer = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
  partId = (await addPart(parsedArm(customer.id), actor)).id
})

const pdf = (size = 2000) => Buffer.concat([Buffer.from('%PDF-1.7\n'), randomBytes(size)])

function upload(content: Buffer, name = 'arm.pdf') {
  const typed = new FormData()
  typed.set('partId', String(partId))
  typed.set('file', new File([new Uint8Array(content)], name, { type: 'text/html' }))
  return partFileForm.safeParse(typed)
}

async function attach(content: Buffer, name?: string) {
  const parsed = upload(content, name)
  if (!parsed.success) throw parsed.error
  return addPartFile(parsed.data, actor)
}

describe('attaching a drawing', () => {
  it('gives it back byte for byte, as what its bytes say it is', async () => {
    const content = pdf()
    const { id } = await attach(content, '../arm.exe')
    const kept = await readFile(id)
    expect(kept && Buffer.from(await kept.content()).equals(content)).toBe(true)
    expect(kept).toMatchObject({
      name: 'arm.exe',
      mediaType: 'application/pdf',
      byteCount: content.length,
      sha256: createHash('sha256').update(content).digest('hex'),
    })
  })

  it('refuses what is no drawing, whatever it is called', async () => {
    await expect(attach(Buffer.from('<html><script>1</script>'), 'arm.pdf')).rejects.toMatchObject({
      code: 'bad-file',
      field: 'file',
    })
    expect(await db.storedFile.count()).toBe(0)
  })

  it('refuses an empty file and one of more than 25 MB before it is read', () => {
    const empty = upload(Buffer.alloc(0))
    expect(empty.error?.issues[0]).toMatchObject({ path: ['file'] })
    const large = upload(Buffer.alloc(25 * 1024 * 1024 + 1))
    expect(large.error?.issues[0]).toMatchObject({
      path: ['file'],
      message: 'At most 25 MB; this one has 26.2 MB',
    })
  })

  it('refuses the same file twice on a part, saying what it is called there', async () => {
    const content = pdf()
    await attach(content, 'arm.pdf')
    await expect(attach(content, 'copy.pdf')).rejects.toMatchObject({
      message: 'The part has this file already: arm.pdf',
    })
  })

  it('keeps one of the same file sent twice at the same moment', async () => {
    const content = pdf()
    const sent = await Promise.allSettled([attach(content), attach(content), attach(content)])
    expect(sent.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    expect(await db.storedFile.count()).toBe(1)
  })

  it('leaves no file behind when it fails half-way', async () => {
    await refuseHistory()
    await expect(attach(pdf())).rejects.toThrow()
    expect(await db.storedFile.count()).toBe(0)
  })
})

describe('taking a file off', () => {
  it('can be undone, once', async () => {
    const { id } = await attach(pdf())
    await detachPartFile({ id }, actor)
    expect(await readPartFiles(partId)).toEqual([])
    await expect(detachPartFile({ id }, actor)).rejects.toMatchObject({ code: 'already-done' })
    await reattachPartFile({ id }, actor)
    expect((await readPartFiles(partId)).map((file) => file.id)).toEqual([id])
    await expect(reattachPartFile({ id }, actor)).rejects.toMatchObject({ code: 'already-done' })
  })

  it('never puts a file on a part it was not taken off', async () => {
    const stray = await db.storedFile.create({
      data: { name: 'x', mediaType: 'application/pdf', byteCount: 1, sha256: '', content: new Uint8Array(1) },
    })
    await expect(reattachPartFile({ id: stray.id }, actor)).rejects.toMatchObject({ code: 'not-found' })
  })
})
