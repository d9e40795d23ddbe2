import { beforeEach, describe, expect, it } from 'vitest'
import { readFreeBars, readLot, readLots } from '@/lib/records/stock/read'
import { newLotForm } from '@/lib/records/stock/schema'
import {
  addCertificate,
  adjustStock,
  changeLot,
  cutStock,
  receiveLot,
  restoreStock,
  scrapStock,
} from '@/lib/records/stock/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'

const units = { lengthUnit: 'in', currency: 'USD' } as const
const typed = {
  materialId: '6061-T6',
  shape: 'square',
  widthMm: '1-1/2',
  heightMm: '',
  wallMm: '1/8',
  cornerRadiusMm: '',
  heatNumber: 'H22914',
  supplierText: 'Cormorant Metals',
  receivedOn: '2026-03-02',
  priceCents: '4.57',
  pricedBy: 'ft',
  place: 'rack 2',
  certificateYieldMPa: '42 ksi',
  certificateTensileMPa: '46 ksi',
  certificateElongationPct: '12',
  bars: [
    { barCount: '3', lengthMm: "20'" },
    { barCount: '1', lengthMm: '48' },
  ],
} as const
const parsed = () => newLotForm(units).parse(typed)
let actor: Actor

async function lotWithBars() {
  const { id } = await receiveLot(parsed(), actor)
  const bars = await db.stockPiece.findMany({ where: { lotId: id }, orderBy: { id: 'asc' } })
  return { id, bars, longBar: bars[0] ?? expect.fail('no bar was received') }
}

async function openJob() {
  const customer = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
  const part = await db.part.create({
    data: {
      number: 'P-0001',
      name: 'Davit arm',
      customerId: customer.id,
      revisions: {
        create: {
          letter: 'A',
          shape: 'square',
          widthMm: 38.1,
          heightMm: 38.1,
          wallMm: 3.175,
          materialId: '6061-T6',
          straightAfterMm: 300,
          startCut: { kind: 'square' },
          endCut: { kind: 'square' },
        },
      },
    },
    select: { revisions: { select: { id: true } } },
  })
  return db.job.create({
    data: {
      number: 'J-0001',
      customerId: customer.id,
      revisionId: part.revisions[0]?.id ?? 0,
      quantity: 1,
      dueOn: new Date('2026-04-01T00:00:00Z'),
      way: 'coldFilled',
      plan: {},
    },
  })
}

beforeEach(async () => {
  await freshDatabase()
  actor = await actorWithRole('office')
  await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
})

describe('receiving a lot', () => {
  it('keeps size, certificate and price in the program’s units, and each bar by itself', async () => {
    // By hand: 1-1/2 in = 38.1 mm, 1/8 in = 3.175 mm, 20 ft = 6096 mm, 48 in = 1219.2 mm;
    // 42 ksi = 42 x 6.894757 = 289.58 MPa (NIST SP 811); 457 cents a foot = 457 / 0.3048 = 1499.3 cents a metre.
    const { id, bars } = await lotWithBars()
    const lot = await db.stockLot.findUniqueOrThrow({ where: { id } })
    expect(lot).toMatchObject({ number: 'L-0001', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 })
    expect(lot.priceCentsPerM).toBe(1499)
    expect(lot.certificateYieldMPa).toBeCloseTo(289.58, 2)
    expect(bars.map(({ lengthMm }) => lengthMm)).toEqual([6096, 6096, 6096, 1219.2])
  })

  it('is refused for a material nobody has entered, and then nothing is kept', async () => {
    await expect(receiveLot({ ...parsed(), materialId: 'unobtainium' }, actor)).rejects.toMatchObject({
      code: 'bad-input',
      field: 'materialId',
    })
    expect(await db.stockLot.count()).toBe(0)
    expect(await db.stockPiece.count()).toBe(0)
  })

  it('takes a certificate’s yield and tensile together or not at all, the tensile above the yield', () => {
    const fault = (change: Partial<Record<keyof typeof typed, string>>) =>
      newLotForm(units)
        .safeParse({ ...typed, ...change })
        .error?.issues.map(({ path }) => path.join('.'))
    expect(fault({ certificateTensileMPa: '' })).toEqual(['certificateTensileMPa'])
    expect(fault({ certificateYieldMPa: '50 ksi' })).toEqual(['certificateTensileMPa'])
    expect(fault({ wallMm: '3/4' })).toEqual(['wallMm'])
    expect(fault({ certificateYieldMPa: '', certificateTensileMPa: '' })).toBeUndefined()
  })
})

describe('a bar on the rack', () => {
  it('that is cut into comes back as an offcut of the same lot, and the bar itself is off the rack', async () => {
    const { id, longBar } = await lotWithBars()
    const cut = { id: longBar.id, version: longBar.version, leftMm: 1500, place: 'rack 3', noteText: '' }
    await cutStock(cut, actor)
    const offcut = await db.stockPiece.findFirstOrThrow({ where: { cutFromId: longBar.id } })
    expect(offcut).toMatchObject({ lotId: id, lengthMm: 1500, isOffcut: true, place: 'rack 3', usedAt: null })
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: longBar.id } })).usedAt).not.toBeNull()
    await expect(cutStock(cut, actor)).rejects.toMatchObject({ code: 'already-done' })
  })

  it('cannot leave more than it was', async () => {
    const { longBar } = await lotWithBars()
    const cut = { id: longBar.id, version: longBar.version, leftMm: 6096, place: '', noteText: '' }
    await expect(cutStock(cut, actor)).rejects.toMatchObject({ code: 'bad-input', field: 'leftMm' })
    expect(await db.stockPiece.count({ where: { usedAt: { not: null } } })).toBe(0)
  })

  it('is changed by one of two who had it open, and the other is told', async () => {
    const { longBar } = await lotWithBars()
    const change = { id: longBar.id, version: longBar.version, lengthMm: 6000, place: '', noteText: 'short' }
    await adjustStock(change, actor)
    await expect(adjustStock({ ...change, lengthMm: 5900 }, actor)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    })
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: longBar.id } })).lengthMm).toBe(6000)
  })

  it('is scrapped with a reason in the history, and can be put back', async () => {
    const { longBar } = await lotWithBars()
    const { version } = await scrapStock(
      { id: longBar.id, version: 0, noteText: 'bent by the fork lift' },
      actor,
    )
    const entry = await db.auditEntry.findFirstOrThrow({
      where: { entity: 'StockPiece', action: 'scrapped' },
    })
    expect(entry).toMatchObject({ detailText: 'bent by the fork lift', actorId: actor.userId })
    await restoreStock({ id: longBar.id, version }, actor)
    expect((await db.stockPiece.findUniqueOrThrow({ where: { id: longBar.id } })).usedAt).toBeNull()
  })

  it('that is reserved for a job is not scrapped, nor offered to a cutting plan', async () => {
    const { id, longBar } = await lotWithBars()
    const job = await openJob()
    await db.stockPiece.update({ where: { id: longBar.id }, data: { reservedForJobId: job.id } })
    await expect(scrapStock({ id: longBar.id, version: 0, noteText: 'bent' }, actor)).rejects.toThrow(
      /J-0001/,
    )
    const lot = await db.stockLot.findUniqueOrThrow({ where: { id } })
    expect((await readFreeBars(lot)).map(({ lengthMm }) => lengthMm)).toEqual([6096, 6096, 1219.2])
  })
})

describe('a heat number', () => {
  it('leads forward to the pieces and jobs that were cut from it', async () => {
    const { id, longBar } = await lotWithBars()
    const job = await openJob()
    await db.piece.create({
      data: { jobId: job.id, number: 1, scanCode: 'scan-code-of-piece-1', stockPieceId: longBar.id },
    })
    const { lots } = await readLots({ search: 'h22914', lengthUnit: 'in', page: 1, usedUp: false })
    expect(lots.map((lot) => lot.id)).toEqual([id])
    const cut = (await readLot(id))?.pieces.flatMap(({ pieces }) => pieces)
    expect(cut?.map(({ number, job }) => `${job.number} ${number}`)).toEqual(['J-0001 1'])
  })

  it('stays, with material and size, once a piece of a job is cut from the lot', async () => {
    const { id, longBar } = await lotWithBars()
    const job = await openJob()
    await db.piece.create({
      data: { jobId: job.id, number: 1, scanCode: 'scan-code-of-piece-1', stockPieceId: longBar.id },
    })
    const { bars: _bars, ...same } = parsed()
    await changeLot({ ...same, place: 'rack 5', id, version: 0 }, actor)
    await expect(changeLot({ ...same, heatNumber: 'H1', id, version: 1 }, actor)).rejects.toMatchObject({
      code: 'still-in-use',
      field: 'heatNumber',
    })
    expect(await db.stockLot.findUniqueOrThrow({ where: { id } })).toMatchObject({
      place: 'rack 5',
      heatNumber: 'H22914',
    })
  })
})

describe('finding stock', () => {
  it('asks by alloy, size and heat number at once, sizes in the shop’s unit', async () => {
    const { id } = await lotWithBars()
    const found = async (search: string) =>
      (await readLots({ search, lengthUnit: 'in', page: 1, usedUp: false })).lots.map((lot) => lot.id)
    expect(await found('6061 1.5 x 1/8')).toEqual([id])
    expect(await found('square 38.1mm')).toEqual([id])
    expect(await found('6061 2')).toEqual([])
    expect(await found('6063')).toEqual([])
  })
})

describe('a certificate', () => {
  it('is kept byte for byte with its lot, and what is no PDF or picture is refused', async () => {
    const { id } = await lotWithBars()
    const text = '%PDF-1.7\nmill certificate, heat H22914\n%%EOF'
    await addCertificate({ lotId: id, file: new File([text], 'heat.pdf') }, actor)
    const lot = await db.stockLot.findUniqueOrThrow({ where: { id }, include: { certificateFile: true } })
    expect(new TextDecoder().decode(lot.certificateFile?.content ?? undefined)).toBe(text)
    await expect(
      addCertificate({ lotId: id, file: new File(['MZ\u0090'], 'heat.pdf') }, actor),
    ).rejects.toMatchObject({ code: 'bad-file' })
  })

  it('sent twice at the same moment is kept once', async () => {
    const { id } = await lotWithBars()
    const send = () => addCertificate({ lotId: id, file: new File(['%PDF-1.7 H22914'], 'heat.pdf') }, actor)
    const sent = await Promise.allSettled([send(), send()])
    expect(sent.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(await db.storedFile.count()).toBe(1)
  })
})
