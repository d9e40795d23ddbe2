import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { readLogo, readReadiness } from '@/lib/records/shop/read'
import { changeLogo, changeShop, setUpShop, takeLogoOff } from '@/lib/records/shop/write'
import { db } from '@/lib/server/db'
import { env } from '@/lib/server/env'
import { roleMay } from '@/lib/server/permissions'
import { forgetBrowser } from '@/tests/support/browser-request'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'

vi.mock('next/headers', () => import('@/tests/support/browser-request'))

const key = 'the-key-that-the-start-printed'
const setUp = {
  key,
  name: 'Tidewrack Fabrication',
  currency: 'USD',
  lengthUnit: 'in',
  paper: 'letter',
  timeZone: 'America/New_York',
  ownerName: 'Mara Quill',
  login: 'mara',
  password: 'three words of a harbour',
  begin: 'empty',
} as const

beforeEach(async () => {
  await freshDatabase()
  forgetBrowser()
  env().BENDWRIGHT_SETUP_KEY = key
})

afterEach(() => {
  env().BENDWRIGHT_SETUP_KEY = undefined
})

describe('Setting the shop up', () => {
  it('makes the shop, its owner, the first rates and a session, once', async () => {
    const owner = await setUpShop(setUp)
    expect(owner).toMatchObject({ name: 'Mara Quill', role: 'owner' })
    expect(await db.shop.count()).toBe(1)
    expect(await db.rateSheet.count()).toBe(1)
    expect(await db.session.count({ where: { userId: owner.userId } })).toBe(1)
    await expect(setUpShop({ ...setUp, login: 'sela' })).rejects.toMatchObject({ code: 'already-done' })
    expect(await db.user.count()).toBe(1)
  })

  it('is done by one of two who press at the same moment', async () => {
    const presses = [setUpShop(setUp), setUpShop({ ...setUp, login: 'sela' })]
    const outcomes = await Promise.allSettled(presses)
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(await db.user.count()).toBe(1)
  })

  it('is refused without the key, and to everybody where there is none', async () => {
    await expect(setUpShop({ ...setUp, key: `${key}x` })).rejects.toMatchObject({ code: 'not-allowed' })
    env().BENDWRIGHT_SETUP_KEY = undefined
    await expect(setUpShop({ ...setUp, key: '' })).rejects.toMatchObject({ code: 'not-allowed' })
    expect(await db.shop.count()).toBe(0)
  })

  it('leaves nothing behind when it fails half-way', async () => {
    await refuseHistory()
    await expect(setUpShop(setUp)).rejects.toThrow('history is refused')
    expect([
      await db.shop.count(),
      await db.user.count(),
      await db.rateSheet.count(),
      await db.session.count(),
    ]).toEqual([0, 0, 0, 0])
  })
})

describe('The shop’s settings', () => {
  async function settings() {
    const owner = await setUpShop(setUp)
    const { id, demoMark, updatedAt, ...kept } = await db.shop.findUniqueOrThrow({ where: { id: 1 } })
    expect([id, demoMark]).toEqual([1, null])
    expect(updatedAt).toBeInstanceOf(Date)
    return { owner, kept }
  }

  it('saved over somebody else’s newer save are refused', async () => {
    const { owner, kept } = await settings()
    expect(await changeShop({ ...kept, taxPpm: 88_750 }, owner)).toEqual({ version: 1 })
    await expect(changeShop({ ...kept, taxPpm: 60_000 }, owner)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    })
    expect((await db.shop.findUniqueOrThrow({ where: { id: 1 } })).taxPpm).toBe(88_750)
  })

  it('keep their currency once there is a price in it', async () => {
    const { owner, kept } = await settings()
    await changeShop({ ...kept, currency: 'EUR' }, owner)
    const customer = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
    await db.quote.create({
      data: {
        number: 'Q-0001',
        customerId: customer.id,
        currency: 'EUR',
        taxName: 'VAT',
        taxPpm: 200_000,
        validUntil: new Date('2026-12-31T00:00:00Z'),
      },
    })
    const change = changeShop({ ...kept, version: 1, currency: 'USD' }, owner)
    await expect(change).rejects.toMatchObject({ code: 'wrong-state', field: 'currency' })
  })

  it('stay as they were when saving fails half-way', async () => {
    const { owner, kept } = await settings()
    await refuseHistory()
    await expect(changeShop({ ...kept, name: 'Other Name' }, owner)).rejects.toThrow('history is refused')
    expect((await db.shop.findUniqueOrThrow({ where: { id: 1 } })).name).toBe('Tidewrack Fabrication')
  })

  it('are the owner’s to change', () => {
    expect([
      roleMay('owner', 'shop.write'),
      roleMay('office', 'shop.write'),
      roleMay('bench', 'shop.write'),
    ]).toEqual([true, false, false])
  })
})

describe('Readiness', () => {
  it('needs every migration of this release', async () => {
    expect(await readReadiness()).toEqual({ ready: true })
    await db.$executeRaw`delete from "_prisma_migrations"`
    expect(await readReadiness()).toEqual({ ready: false, because: 'migrations-missing' })
  })
})

describe('The logo on the papers', () => {
  const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3])
  const picture = (content: BlobPart = png) => ({ file: new File([content], 'mark.png') })
  const logoId = async () => (await db.shop.findUniqueOrThrow({ where: { id: 1 } })).logoId

  it('is kept byte for byte, replaced, and taken off; every one of them stays for quotes that went out with it', async () => {
    const owner = await setUpShop(setUp)
    const first = await changeLogo(picture(), owner)
    expect(await logoId()).toBe(first.id)
    expect(await readLogo(first.id)).toMatchObject({ mediaType: 'image/png' })
    expect(new Uint8Array((await readLogo(first.id))?.content ?? [])).toEqual(png)
    const second = await changeLogo(picture(), owner)
    expect(await logoId()).toBe(second.id)
    await takeLogoOff({}, owner)
    expect(await logoId()).toBeNull()
    expect(await readLogo(first.id)).not.toBeNull()
    await expect(takeLogoOff({}, owner)).rejects.toMatchObject({ code: 'already-done' })
  })

  it('is a picture, whatever its name says, and the owner’s to change', async () => {
    const owner = await setUpShop(setUp)
    await expect(changeLogo(picture('<svg onload="x"/>'), owner)).rejects.toMatchObject({ code: 'bad-file' })
    expect(await logoId()).toBeNull()
    expect((['owner', 'office', 'bench'] as const).map((role) => roleMay(role, 'shop.write'))).toEqual([
      true,
      false,
      false,
    ])
  })

  it('leaves nothing behind when it fails half-way', async () => {
    const owner = await setUpShop(setUp)
    await refuseHistory()
    await expect(changeLogo(picture(), owner)).rejects.toThrow()
    expect(await logoId()).toBeNull()
    expect(await db.storedFile.count()).toBe(0)
  })
})
