import { beforeEach, describe, expect, it } from 'vitest'
import { addPart } from '@/lib/records/part/write'
import { readSetup, readTooling } from '@/lib/records/setup/read'
import { firstSetup } from '@/lib/records/setup/rules'
import { setupForm } from '@/lib/records/setup/schema'
import { saveSetup } from '@/lib/records/setup/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '../../support/actor'
import { freshDatabase } from '../../support/database'
import { refuseHistory } from '../../support/half-way'
import { inches, parsedArm } from '../part/typed-part'

let actor: Actor
let revisionId: number
let pressId: number
let alloyPotId: number
let sandId: number

beforeEach(async () => {
  await freshDatabase()
  actor = await actorWithRole('office')
  await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
  const customer = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
  revisionId = (await addPart(parsedArm(customer.id), actor)).revisionId
  const press = await db.press.create({
    data: {
      shopNumber: 'PR-1',
      name: 'H-frame',
      capacityKn: 178,
      supportNoseRadiusMm: 19,
      minimumSpanMm: 200,
      maximumSpanMm: 900,
    },
  })
  pressId = press.id
  const pot = await db.filler.create({ data: { shopNumber: 'F-1', name: 'Pot 1', fillerId: 'bi-158' } })
  const sand = await db.filler.create({ data: { shopNumber: 'F-2', name: 'Dry sand', fillerId: 'dry-sand' } })
  alloyPotId = pot.id
  sandId = sand.id
})

const choice = (changed: Record<string, string | number> = {}) =>
  setupForm(inches).parse({
    revisionId: String(revisionId),
    version: 0,
    support: 'lowMelt',
    pressId: String(pressId),
    supportSpanMm: '18-1/2',
    dieId: '',
    strapId: '',
    fillerId: String(alloyPotId),
    ...changed,
  })

describe('choosing a set-up', () => {
  it('keeps it, and a later choice over the version it was seen at', async () => {
    expect(await saveSetup(choice(), actor)).toEqual({ version: 1 })
    expect(await saveSetup(choice({ version: 1, supportSpanMm: '20' }), actor)).toEqual({ version: 2 })
    expect(await readSetup(revisionId)).toMatchObject({
      supportSpanMm: 508,
      fillerId: alloyPotId,
      dieId: null,
    })
  })

  it('refuses a choice made without having seen the one that stands', async () => {
    await saveSetup(choice(), actor)
    await expect(saveSetup(choice({ supportSpanMm: '20' }), actor)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    })
    expect(await readSetup(revisionId)).toMatchObject({ supportSpanMm: 469.9 })
  })

  it('keeps one of two first choices made at the same moment', async () => {
    const outcomes = await Promise.allSettled([
      saveSetup(choice({ supportSpanMm: '19' }), actor),
      saveSetup(choice({ supportSpanMm: '20' }), actor),
    ])
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(await db.setup.count()).toBe(1)
  })

  it('refuses a span the press does not take, with what it takes, at the span', async () => {
    await expect(saveSetup(choice({ supportSpanMm: '40' }), actor)).rejects.toMatchObject({
      field: 'supportSpanMm',
      message: expect.stringMatching(/^Allowed on PR-1: 7\.874\sin to 35\.433\sin; met: 40\sin$/u),
    })
  })

  it('refuses sand as a low-melt filler, the other way round, and no pot at all', async () => {
    await expect(saveSetup(choice({ fillerId: String(sandId) }), actor)).rejects.toMatchObject({
      field: 'fillerId',
    })
    await expect(saveSetup(choice({ support: 'sand' }), actor)).rejects.toMatchObject({ field: 'fillerId' })
    await expect(saveSetup(choice({ fillerId: '' }), actor)).rejects.toMatchObject({ field: 'fillerId' })
  })

  it('refuses what is retired, unless this set-up had it before', async () => {
    await saveSetup(choice(), actor)
    await db.press.update({ where: { id: pressId }, data: { retiredAt: new Date() } })
    expect(await saveSetup(choice({ version: 1, supportSpanMm: '20' }), actor)).toEqual({ version: 2 })
    expect((await readTooling(revisionId)).presses).toMatchObject([{ id: pressId, retired: true }])
    await db.setup.deleteMany()
    await expect(saveSetup(choice(), actor)).rejects.toMatchObject({ field: 'pressId' })
  })

  it('keeps nothing when it fails half-way', async () => {
    await refuseHistory()
    await expect(saveSetup(choice(), actor)).rejects.toThrow()
    expect(await readSetup(revisionId)).toBeNull()
  })
})

describe('the set-up to begin with', () => {
  it('takes the strongest press within its spans, and a pot of alloy where there is one', async () => {
    const tooling = await readTooling(revisionId)
    const first = firstSetup(tooling, { heightMm: 38.1, centrelineRadiusMm: 406.4 }, 'in')
    expect(first).toMatchObject({ pressId, support: 'lowMelt', fillerId: alloyPotId, dieId: null })
    // 1.4 radii is 569 mm: 22-1/2 in to the nearest half inch is 571.5 mm.
    expect(first?.supportSpanMm).toBeCloseTo(571.5, 9)
    expect(
      firstSetup({ ...tooling, presses: [] }, { heightMm: 38, centrelineRadiusMm: 400 }, 'in'),
    ).toBeNull()
  })
})
