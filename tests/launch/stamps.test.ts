import fs from 'node:fs'
import path from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import { ROOT } from '@/lib/launch/root.mjs'
import { fingerprint, unlessStamped } from '@/lib/launch/stamps.mjs'
import { temporaryFolder } from '@/tests/support/temporary-folder'

let folder: string
const inFolder = (name: string) => path.join(folder, name)

beforeEach(() => {
  // Stamps are named from the clone's folder.
  folder = path.relative(ROOT, temporaryFolder())
})

const write = (name: string, text: string) => fs.writeFileSync(path.join(ROOT, folder, name), text)

describe('fingerprint', () => {
  it('changes with a content, a name, and a new file, and not with a time', () => {
    write('a', '1')
    const before = fingerprint([folder])
    fs.utimesSync(path.join(ROOT, folder, 'a'), 1, 1)
    expect(fingerprint([folder])).toBe(before)
    write('a', '2')
    expect(fingerprint([folder])).not.toBe(before)
    write('a', '1')
    write('b', '')
    expect(fingerprint([folder])).not.toBe(before)
  })

  it('leaves out what is excepted', () => {
    write('a', '1')
    const before = fingerprint([folder], { except: [`${folder}/b`] })
    write('b', '2')
    expect(fingerprint([folder], { except: [`${folder}/b`] })).toBe(before)
  })
})

describe('work under a stamp', () => {
  const place = () => ({ stampFile: inFolder('stamp'), resultFile: inFolder('result') })
  const make = async () => write('result', 'made')

  it('is done once for one input, and again for another', async () => {
    expect(await unlessStamped({ ...place(), input: 'x' }, make)).toBe(true)
    expect(await unlessStamped({ ...place(), input: 'x' }, make)).toBe(false)
    expect(await unlessStamped({ ...place(), input: 'y' }, make)).toBe(true)
  })

  it('is done again when its result is gone', async () => {
    await unlessStamped({ ...place(), input: 'x' }, make)
    fs.rmSync(path.join(ROOT, inFolder('result')))
    expect(await unlessStamped({ ...place(), input: 'x' }, make)).toBe(true)
  })

  it('is done again when it failed half-way, even over an earlier result', async () => {
    await unlessStamped({ ...place(), input: 'x' }, make)
    const fail = () => Promise.reject(new Error('cut short'))
    await expect(unlessStamped({ ...place(), input: 'y' }, fail)).rejects.toThrow('cut short')
    expect(await unlessStamped({ ...place(), input: 'x' }, make)).toBe(true)
  })
})
