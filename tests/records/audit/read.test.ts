import { beforeAll, describe, expect, it } from 'vitest'
import { THIN_SPACE } from '@/lib/core/format'
import { readAudit } from '@/lib/records/audit/read'
import { auditDifferences, recordHref, staleDifferences } from '@/lib/records/audit/rules'
import { db } from '@/lib/server/db'
import { recordChange } from '@/lib/server/history'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'

describe('The audit list', () => {
  beforeAll(async () => {
    await freshDatabase()
    const mara = await actorWithRole('owner', 'Mara Quill')
    const sela = await actorWithRole('office', 'Sela Brandt')
    await db.$transaction(async (tx) => {
      for (let index = 1; index <= 60; index += 1) {
        await recordChange(tx, {
          by: index % 2 ? mara : sela,
          action: 'changed',
          entity: 'Press',
          entityId: index % 3,
        })
      }
      await recordChange(tx, {
        by: sela,
        action: 'sent',
        entity: 'Quote',
        entityId: 7,
        detailText: 'to Kestrel Harbour',
      })
    })
  })

  it('is paged from the newest down, without a gap or a repeat', async () => {
    const first = await readAudit({})
    expect(first.entries).toHaveLength(50)
    expect(first.entries[0]).toMatchObject({ action: 'sent' })
    const second = await readAudit({ beforeId: BigInt(first.nextBeforeId ?? 0) })
    expect(second.entries).toHaveLength(11)
    expect(second.nextBeforeId).toBeNull()
    expect(new Set([...first.entries, ...second.entries].map(({ id }) => id)).size).toBe(61)
  })

  it('is narrowed by record, person and words', async () => {
    expect((await readAudit({ entity: 'Press', entityId: '0' })).entries).toHaveLength(20)
    const sela = await db.user.findFirstOrThrow({ where: { name: 'Sela Brandt' } })
    expect((await readAudit({ actorId: sela.id })).entries).toHaveLength(31)
    expect((await readAudit({ text: 'kestrel' })).entries).toHaveLength(1)
  })

  it('tells of no change that did not happen', async () => {
    const count = await db.auditEntry.count()
    const mara = await db.user.findFirstOrThrow({ where: { name: 'Mara Quill' } })
    const half = db.$transaction(async (tx) => {
      await recordChange(tx, { by: mara.name, action: 'changed', entity: 'Press', entityId: 1 })
      throw new Error('cut short')
    })
    await expect(half).rejects.toThrow('cut short')
    expect(await db.auditEntry.count()).toBe(count)
  })

  it.each([
    `update "AuditEntry" set "actorText" = 'somebody else'`,
    'delete from "AuditEntry"',
    'truncate "AuditEntry"',
    // A leave of the demo shop's removal: the trail outlives that too.
    `set local bendwright.removing_demo = 'on'; delete from "AuditEntry"`,
  ])('has lines that nobody can change or remove: %s', async (statements) => {
    const before = await db.auditEntry.findMany({ orderBy: { id: 'asc' } })
    const change = db.$transaction(async (tx) => {
      for (const statement of statements.split('; ')) await tx.$executeRawUnsafe(statement)
    })
    await expect(change).rejects.toThrow('AuditEntry is kept as it was written')
    expect(await db.auditEntry.findMany({ orderBy: { id: 'asc' } })).toEqual(before)
  })
})

describe('A line in words', () => {
  it('names each value that changed, without the row’s own bookkeeping', () => {
    expect(
      auditDifferences(
        { id: 1, version: 0, minimumSpanMm: 200, name: 'A' },
        { id: 1, version: 1, minimumSpanMm: 250, name: 'A' },
      ),
    ).toEqual([{ name: 'minimum span', before: `200${THIN_SPACE}mm`, after: `250${THIN_SPACE}mm` }])
    expect(auditDifferences(null, { capacityKn: 200 })).toEqual([
      { name: 'capacity', before: '–', after: `200${THIN_SPACE}kN` },
    ])
    expect(auditDifferences(null, null)).toEqual([])
  })

  it('says lengths and money in the shop’s units, and which of several it is about', () => {
    const before = { bends: [{ angleDeg: 30, centrelineRadiusMm: 152.4 }, { angleDeg: 20 }], limitCents: 100 }
    const after = {
      bends: [{ angleDeg: 30, centrelineRadiusMm: 304.8 }, { angleDeg: 22.5 }],
      limitCents: 250,
      weldedAfter: true,
    }
    // 152.4 mm and 304.8 mm are 6 in and 12 in by definition of the inch.
    expect(auditDifferences(before, after, { lengthUnit: 'in', currency: 'USD' })).toEqual([
      { name: 'bend 1, centreline radius', before: `6${THIN_SPACE}in`, after: `12${THIN_SPACE}in` },
      { name: 'bend 2, angle', before: '20°', after: '22.5°' },
      { name: 'limit', before: '$1.00', after: '$2.50' },
      { name: 'welded afterwards', before: '–', after: 'yes' },
    ])
  })

  it('sets what others saved beside what is typed, a bend more or less too', () => {
    const saves = [
      { before: { bends: [{ angleDeg: 30 }] }, after: { bends: [{ angleDeg: 31 }] } },
      { before: { bends: [{ angleDeg: 31 }] }, after: { bends: [{ angleDeg: 32 }, { angleDeg: 10 }] } },
    ]
    expect(staleDifferences(saves, { bends: [{ angleDeg: '30.5' }] })).toEqual([
      { name: 'bend 1, angle', before: '30°', after: '32°', yours: '30.5' },
      { name: 'bend 2, angle', before: '–', after: '10°', yours: null },
    ])
  })

  it('leads to the record where that has a page', () => {
    expect(recordHref('Press', '4')).toBe('/shop/presses/4')
    expect(recordHref('Shop', '1')).toBe('/shop/settings')
    expect(recordHref('FillerEntry', '4')).toBeNull()
    expect(recordHref('Press', '../../x')).toBeNull()
  })
})
