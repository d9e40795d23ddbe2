import { beforeEach, describe, expect, it } from 'vitest'
import { readPart, readParts } from '@/lib/records/part/read'
import type { PartTyped } from '@/lib/records/part/schema'
import { addPart, archivePart, changePart, freezeRevision, restorePart } from '@/lib/records/part/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '../../support/actor'
import { freshDatabase } from '../../support/database'
import { refuseHistory } from '../../support/half-way'
import { parsedArm } from './typed-part'

let actor: Actor
let customerId: number

beforeEach(async () => {
  await freshDatabase()
  actor = await actorWithRole('office')
  const customer = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
  customerId = customer.id
})

const arm = (changed: Partial<PartTyped> = {}) => parsedArm(customerId, changed)
const freeze = (revisionId: number) =>
  db.$transaction((tx) => freezeRevision(tx, revisionId, actor, 'quoted'))

describe('adding a part', () => {
  it('gives it the next number and revision A, with its bends in order', async () => {
    const first = await addPart(arm(), actor)
    const second = await addPart(arm({ name: 'Davit arm, starboard' }), actor)
    expect([first.number, second.number]).toEqual(['P-0001', 'P-0002'])
    const part = await readPart(first.id)
    expect(part?.newest).toMatchObject({ letter: 'A', widthMm: 38.1, frozenAt: null })
    expect(part?.newest.bends.map(({ rotationDeg }) => rotationDeg)).toEqual([0, -90])
    expect(part?.newest.startCut).toEqual({ kind: 'mitre', angleDeg: 22.5, rotationDeg: 90 })
  })

  it('draws different numbers for parts added at the same moment', async () => {
    const saved = await Promise.all(Array.from({ length: 5 }, () => addPart(arm(), actor)))
    expect(new Set(saved.map(({ number }) => number)).size).toBe(5)
  })

  it('refuses a customer put away and a material of no list, at their fields', async () => {
    await expect(addPart(arm({ materialId: 'unobtainium' }), actor)).rejects.toMatchObject({
      field: 'materialId',
    })
    await db.customer.update({ where: { id: customerId }, data: { archivedAt: new Date() } })
    await expect(addPart(arm(), actor)).rejects.toMatchObject({ code: 'bad-input', field: 'customerId' })
    expect(await db.part.count()).toBe(0)
  })

  it('takes a material of the shop’s own', async () => {
    await db.materialEntry.create({ data: { id: 'mill-7', data: { name: 'Mill 7', yieldMPa: 250 } } })
    const { id } = await addPart(arm({ materialId: 'mill-7' }), actor)
    expect((await readPart(id))?.newest.materialId).toBe('mill-7')
  })

  it('leaves nothing behind when it fails half-way', async () => {
    await refuseHistory()
    await expect(addPart(arm(), actor)).rejects.toThrow()
    expect(await db.part.count()).toBe(0)
    expect(await db.partRevision.count()).toBe(0)
    expect(await db.numberSeries.count()).toBe(0)
  })
})

describe('changing a part', () => {
  it('changes a revision that nobody was quoted', async () => {
    const saved = await addPart(arm(), actor)
    const after = await changePart({ ...arm({ wallMm: '1/8' }), id: saved.id, version: saved.version }, actor)
    expect(after).toMatchObject({ letter: 'A', revisionId: saved.revisionId, version: 1 })
    const part = await readPart(saved.id)
    expect(part?.revisions).toHaveLength(1)
    expect(part?.newest).toMatchObject({ wallMm: 3.175, version: 1 })
  })

  it('makes the next revision of a frozen one, keeps the frozen one and takes the set-up along', async () => {
    const saved = await addPart(arm(), actor)
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
    await db.setup.create({
      data: { revisionId: saved.revisionId, support: 'hollow', pressId: press.id, supportSpanMm: 480 },
    })
    await freeze(saved.revisionId)
    const after = await changePart({ ...arm({ wallMm: '1/8' }), id: saved.id, version: saved.version }, actor)
    expect(after.letter).toBe('B')
    const part = await readPart(saved.id)
    expect(part?.revisions.map(({ letter, wallMm }) => [letter, wallMm])).toEqual([
      ['B', 3.175],
      ['A', 3.048],
    ])
    expect(await db.setup.findUnique({ where: { revisionId: after.revisionId } })).toMatchObject({
      supportSpanMm: 480,
    })
  })

  it('makes no revision for a new name alone', async () => {
    const saved = await addPart(arm(), actor)
    await freeze(saved.revisionId)
    const renamed = { ...arm({ name: 'Davit arm, left' }), id: saved.id, version: saved.version }
    expect(await changePart(renamed, actor)).toMatchObject({ letter: 'A', version: 1 })
    expect(await readPart(saved.id)).toMatchObject({ name: 'Davit arm, left', revisions: [{ letter: 'A' }] })
  })

  it('refuses the second of two saves from the same state, and keeps the first', async () => {
    const saved = await addPart(arm(), actor)
    const one = { ...arm({ wallMm: '1/8' }), id: saved.id, version: saved.version }
    const other = { ...arm({ wallMm: '3/32' }), id: saved.id, version: saved.version }
    const outcomes = await Promise.allSettled([changePart(one, actor), changePart(other, actor)])
    const refused = outcomes.filter((outcome) => outcome.status === 'rejected')
    expect(refused).toHaveLength(1)
    expect(refused[0]?.reason).toMatchObject({ code: 'changed-meanwhile' })
    expect(await db.bend.count()).toBe(2)
  })

  it('leaves part, revision and bends as they were when it fails half-way', async () => {
    const saved = await addPart(arm(), actor)
    await refuseHistory()
    const change = { ...arm({ name: 'Else', wallMm: '1/8' }), id: saved.id, version: saved.version }
    await expect(changePart(change, actor)).rejects.toThrow()
    const part = await readPart(saved.id)
    expect(part).toMatchObject({ name: 'Davit arm, port', version: 0 })
    expect(part?.newest.wallMm).toBe(3.048)
    expect(part?.newest.bends).toHaveLength(2)
  })

  it('freezes a revision once: later calls leave the first moment', async () => {
    const saved = await addPart(arm(), actor)
    await freeze(saved.revisionId)
    const first = (await readPart(saved.id))?.newest.frozenAt
    await freeze(saved.revisionId)
    expect((await readPart(saved.id))?.newest.frozenAt).toEqual(first)
  })
})

describe('finding parts', () => {
  it('looks at number, name, customer and the customer’s number, capitals aside', async () => {
    await addPart(arm({ customerRef: 'KH-104' }), actor)
    await addPart(arm({ name: 'Rigger stay' }), actor)
    const names = async (search: string) =>
      (await readParts({ search, page: 1, state: null })).parts.map(({ name }) => name)
    expect(await names('davit')).toEqual(['Davit arm, port'])
    expect(await names('kh-104')).toEqual(['Davit arm, port'])
    expect(await names('P-0002')).toEqual(['Rigger stay'])
    expect(await names('KESTREL')).toHaveLength(2)
    expect(await names('%')).toEqual([])
    expect(await names('_')).toEqual([])
  })

  it('leaves out what is put away, until it is brought back', async () => {
    const { id, version } = await addPart(arm(), actor)
    const away = await archivePart({ id, version }, actor)
    expect((await readParts({ search: '', page: 1, state: null })).count).toBe(0)
    expect((await readParts({ search: '', page: 1, state: 'archived' })).count).toBe(1)
    await restorePart(away, actor)
    expect((await readParts({ search: '', page: 1, state: null })).count).toBe(1)
  })
})
