import { beforeEach, describe, expect, it } from 'vitest'
import {
  readFiller,
  readFillerLedger,
  readFillers,
  readPresses,
  readToolChoices,
} from '@/lib/records/tooling/read'
import {
  addDie,
  addFiller,
  addPress,
  addStrap,
  changeDie,
  changeFiller,
  changePress,
  changeStrap,
  enterFillerMove,
  retireTool,
} from '@/lib/records/tooling/write'
import { db } from '@/lib/server/db'
import { roleMay } from '@/lib/server/permissions'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'

const press = {
  shopNumber: 'P-1',
  name: 'H-frame by the door',
  capacityKn: 200,
  strokeMm: 160,
  supportNoseRadiusMm: 25,
  supportFrictionCoeff: null,
  minimumSpanMm: 200,
  maximumSpanMm: 900,
  notesText: '',
}
const die = {
  shopNumber: 'D-6',
  surfaceRadiusMm: 146,
  grooveWidthMm: 38.1,
  arcDeg: 120,
  place: 'rack 2',
  notesText: '',
}
const strap = {
  shopNumber: 'S-1',
  thicknessMm: 3,
  widthMm: 38,
  lengthMm: 900,
  yieldMPa: 350,
  frictionCoeff: null,
  place: '',
  notesText: '',
}
const filler = {
  shopNumber: 'F-1',
  name: 'Big pot by the tank',
  fillerId: 'bi-158',
  lotText: '',
  densityKgM3: null,
  yieldMPa: null,
  modulusMPa: null,
  priceCentsPerKg: 5500,
  notesText: '',
}

let office: Actor

beforeEach(async () => {
  await freshDatabase()
  await db.shop.create({ data: { name: 'Tidewrack Fabrication', lengthUnit: 'mm', currency: 'USD' } })
  office = await actorWithRole('office')
})

describe('A tool', () => {
  it('has a shop number of its own among its kind', async () => {
    await addPress(press, office)
    await expect(addPress(press, office)).rejects.toMatchObject({ field: 'shopNumber' })
    await addDie({ ...die, shopNumber: 'P-1' }, office)
    expect(await db.press.count()).toBe(1)
  })

  it('keeps its own number when it is changed, and can’t take another’s', async () => {
    const { id } = await addDie(die, office)
    await addDie({ ...die, shopNumber: 'D-7' }, office)
    expect(await changeDie({ ...die, id, version: 0, surfaceRadiusMm: 150 }, office)).toEqual({ version: 1 })
    const taken = changeDie({ ...die, id, version: 1, shopNumber: 'D-7' }, office)
    await expect(taken).rejects.toMatchObject({ field: 'shopNumber' })
  })

  it('changed over somebody else’s newer save is refused', async () => {
    const { id } = await addStrap(strap, office)
    await changeStrap({ ...strap, id, version: 0, yieldMPa: 400 }, office)
    const late = changeStrap({ ...strap, id, version: 0, yieldMPa: 500 }, office)
    await expect(late).rejects.toMatchObject({ code: 'changed-meanwhile' })
    expect(await db.strap.findUnique({ where: { id }, select: { yieldMPa: true } })).toEqual({
      yieldMPa: 400,
    })
  })

  it('out of use stands in no choice, and comes back by the same press', async () => {
    const { id } = await addPress(press, office)
    await retireTool({ kind: 'press', id, retired: true }, office)
    expect((await readToolChoices()).presses).toEqual([])
    expect(await readPresses({ retired: true })).toHaveLength(1)
    await expect(retireTool({ kind: 'press', id, retired: true }, office)).rejects.toMatchObject({
      code: 'already-done',
    })
    await retireTool({ kind: 'press', id, retired: false }, office)
    expect(await readPresses()).toHaveLength(1)
  })

  it('is neither added, changed nor retired when that fails half-way', async () => {
    const ids = {
      press: (await addPress(press, office)).id,
      die: (await addDie(die, office)).id,
      strap: (await addStrap(strap, office)).id,
      filler: (await addFiller(filler, office)).id,
    }
    const before = await readToolChoices()
    await refuseHistory()
    const writes = [
      addPress({ ...press, shopNumber: 'P-2' }, office),
      addDie({ ...die, shopNumber: 'D-7' }, office),
      addStrap({ ...strap, shopNumber: 'S-2' }, office),
      addFiller({ ...filler, shopNumber: 'F-2' }, office),
      changePress({ ...press, id: ids.press, version: 0, capacityKn: 300 }, office),
      changeDie({ ...die, id: ids.die, version: 0, surfaceRadiusMm: 99 }, office),
      changeStrap({ ...strap, id: ids.strap, version: 0, widthMm: 99 }, office),
      changeFiller({ ...filler, id: ids.filler, version: 0, name: 'Other pot' }, office),
      ...(['press', 'die', 'strap', 'filler'] as const).map((kind) =>
        retireTool({ kind, id: ids[kind], retired: true }, office),
      ),
    ]
    for (const outcome of await Promise.allSettled(writes)) expect(outcome.status).toBe('rejected')
    expect(await readToolChoices()).toEqual(before)
  })

  it('is changed at the desk; the bench may look and enter the ledger', () => {
    expect(roleMay('bench', 'tooling.write')).toBe(false)
    expect(roleMay('bench', 'tooling.read')).toBe(true)
    expect(roleMay('bench', 'filler.write')).toBe(true)
    expect(roleMay('office', 'tooling.write')).toBe(true)
  })
})

describe('A pot’s ledger', () => {
  async function pot() {
    const { id } = await addFiller(filler, office)
    const move = (kind: 'bought' | 'poured' | 'recovered' | 'lost' | 'counted', massKg: number) =>
      enterFillerMove({ fillerId: id, kind, massKg, noteText: '' }, office)
    return { id, move }
  }

  // By hand: 20 - 8.4 + 8.2 - 0.1 = 19.7; counted at 19.5 enters -0.2.
  it('adds up, and says after each line what the pot held', async () => {
    const { id, move } = await pot()
    await move('bought', 20)
    await move('poured', 8.4)
    await move('recovered', 8.2)
    await move('lost', 0.1)
    await move('counted', 19.5)
    const { lines } = await readFillerLedger(id, 1)
    const expected = [19.5, 19.7, 19.8, 11.6, 20]
    lines.forEach((line, index) => {
      expect(line.afterKg).toBeCloseTo(expected[index] ?? Number.NaN, 9)
    })
    expect(lines[0]?.massKg).toBeCloseTo(-0.2, 9)
    const balance = (await readFiller(id))?.balance
    expect(balance?.inPotKg).toBeCloseTo(19.5, 9)
    expect(balance?.pouredKg).toBeCloseTo(8.4, 9)
    expect((await readFillers())[0]?.balance.recoveredKg).toBeCloseTo(8.2, 9)
  })

  it('two pours at the same moment can’t both take the last of it', async () => {
    const { id, move } = await pot()
    await move('bought', 10)
    const outcomes = await Promise.allSettled([move('poured', 7), move('poured', 7)])
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    const refused = outcomes.find((outcome) => outcome.status === 'rejected')
    expect(refused?.reason).toMatchObject({ code: 'not-enough', field: 'massKg' })
    expect((await readFiller(id))?.balance.inPotKg).toBeCloseTo(3, 9)
  })

  it('a pot out of use takes no move', async () => {
    const { id, move } = await pot()
    await retireTool({ kind: 'filler', id, retired: true }, office)
    await expect(move('bought', 1)).rejects.toMatchObject({ code: 'wrong-state' })
  })

  it('a pot stays the alloy it is once the ledger has begun', async () => {
    const { id, move } = await pot()
    expect(await changeFiller({ ...filler, id, version: 0, fillerId: 'bi-117' }, office)).toEqual({
      version: 1,
    })
    await move('bought', 1)
    const other = changeFiller({ ...filler, id, version: 1, fillerId: 'bi-158' }, office)
    await expect(other).rejects.toMatchObject({ code: 'wrong-state', field: 'fillerId' })
  })

  it('enters nothing when it fails half-way', async () => {
    const { id, move } = await pot()
    await move('bought', 10)
    await refuseHistory()
    await expect(move('poured', 4)).rejects.toThrow('history is refused')
    expect((await readFillerLedger(id, 1)).count).toBe(1)
  })
})
