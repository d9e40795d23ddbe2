import { beforeEach, describe, expect, it } from 'vitest'
import { alloyById } from '@/lib/core/materials/alloys'
import { readAlloy, readAlloys } from '@/lib/records/material/read'
import { materialFits, statusSummary } from '@/lib/records/material/rules'
import { newMaterialForm } from '@/lib/records/material/schema'
import { addMaterial, changeMaterial, removeMaterial } from '@/lib/records/material/write'
import { readMaterialChoices, readOwnMaterial } from '@/lib/records/part/read'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'

// EN AW-6060 T66: EN 755-2 minimums 160 and 215 MPa at 8 percent; E and density as EN 1999-1-1 has them for any alloy.
const typed = {
  id: '6060-T66',
  name: 'EN AW-6060 T66, extruded',
  family: 'aluminium',
  temper: 'T66',
  form: 'extruded tube',
  elasticModulusMPa: '70000',
  poisson: '0.3',
  densityKgM3: '2700',
  yieldMPa: '160',
  tensileMPa: '215',
  elongationPct: '8',
  uniformStrain: '',
  reductionOfAreaPct: '',
  heatTreatable: true,
  sourceText: 'EN 755-2 minimums',
  status: 'secondary',
  overTable: false,
} as const
const units = { lengthUnit: 'mm', currency: 'EUR' } as const
const parse = (change: Partial<Record<keyof typeof typed, string | boolean>> = {}) =>
  newMaterialForm(units).parse({ ...typed, ...change })
let actor: Actor

beforeEach(async () => {
  await freshDatabase()
  actor = await actorWithRole('office')
})

describe('a material of the shop’s own', () => {
  it('can be chosen for a part and is what the bend spec is then asked with', async () => {
    await addMaterial(parse(), actor)
    expect((await readMaterialChoices()).find(({ id }) => id === '6060-T66')).toMatchObject({
      family: 'aluminium',
    })
    expect(await readOwnMaterial('6060-T66')).toMatchObject({ yieldMPa: 160, tensileMPa: 215, poisson: 0.3 })
  })

  it('says of each value where it is from and how sure that is', async () => {
    await addMaterial(parse(), actor)
    const shown = await readAlloy('6060-T66')
    expect(shown?.alloy.sources.yieldMPa).toEqual({ source: 'EN 755-2 minimums', status: 'secondary' })
    expect(statusSummary(shown?.alloy.sources ?? {})).toBe('6 quoted second hand')
  })

  it('does not take the place of the table’s unless that is meant', async () => {
    await expect(addMaterial(parse({ id: '6061 t6' }), actor)).rejects.toMatchObject({ field: 'id' })
    expect(await db.materialEntry.count()).toBe(0)
    const { id } = await addMaterial(parse({ id: '6061 t6', overTable: true }), actor)
    expect(id).toBe('6061-T6')
    const own = (await readAlloys()).filter((alloy) => alloy.id === '6061-T6')
    expect(own).toMatchObject([{ yieldMPa: 160, overTable: true }])
    // Left as the table has it, the density keeps the table's source; the yield is the shop's.
    expect(own[0]?.sources.densityKgM3).toEqual(alloyById('6061-T6')?.sources.densityKgM3)
    expect(own[0]?.sources.yieldMPa?.source).toBe('EN 755-2 minimums')
  })

  it('is entered once, capitals aside', async () => {
    await addMaterial(parse(), actor)
    await expect(addMaterial(parse({ id: '6060-t66' }), actor)).rejects.toMatchObject({ field: 'id' })
  })

  it('is not kept with a tensile strength no higher than the yield', () => {
    const fault = newMaterialForm(units).safeParse({ ...typed, tensileMPa: '160' })
    expect(fault.error?.issues.map(({ path }) => path.join('.'))).toEqual(['tensileMPa'])
  })

  it('is changed by one of two who had it open, and the other is told', async () => {
    await addMaterial(parse(), actor)
    const { overTable: _overTable, ...values } = parse()
    await changeMaterial({ ...values, yieldMPa: 170, version: 0 }, actor)
    await expect(changeMaterial({ ...values, version: 0 }, actor)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    })
    expect((await readAlloy('6060-T66'))?.alloy.yieldMPa).toBe(170)
  })

  it('stays while a lot is of it, and the table’s values come back when those over them are removed', async () => {
    await addMaterial(parse(), actor)
    await addMaterial(parse({ id: '6061-T6', overTable: true }), actor)
    await db.stockLot.create({
      data: {
        number: 'L-0001',
        materialId: '6060-T66',
        shape: 'round',
        widthMm: 40,
        heightMm: 40,
        wallMm: 3,
        receivedOn: new Date('2026-03-02T00:00:00Z'),
        priceCentsPerM: 900,
      },
    })
    await expect(removeMaterial({ id: '6060-T66', version: 0 }, actor)).rejects.toThrow(/L-0001/)
    await removeMaterial({ id: '6061-T6', version: 0 }, actor)
    // ASTM B221 and B210 tables: 6061-T6 typical yield is far above 6060-T66's minimum of 160 MPa.
    expect((await readAlloy('6061-T6'))?.alloy.yieldMPa).toBeGreaterThan(240)
    expect(await db.auditEntry.count({ where: { entity: 'MaterialEntry', action: 'removed' } })).toBe(1)
  })
})

describe('finding a material', () => {
  it('asks for every word, wherever it stands', () => {
    const alloy = { id: '6061-T6', name: '6061-T6 extruded', words: 'aluminium' }
    expect(materialFits(alloy, 'alum 6061')).toBe(true)
    expect(materialFits(alloy, '6061 steel')).toBe(false)
    expect(materialFits(alloy, '')).toBe(true)
  })
})
