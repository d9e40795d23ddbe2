import { db } from '@/lib/server/db'

/** The shop, one customer and one two-bend part with a whole set-up: what a job needs to be opened. Invented. */
export async function bentPart(options: { withSetup?: boolean } = {}) {
  await db.shop.create({ data: { name: 'Tidewrack Fabrication', lengthUnit: 'mm', trimMm: 3, kerfMm: 2 } })
  const customer = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
  const part = await db.part.create({
    data: { number: 'P-0001', name: 'Davit arm', customerId: customer.id },
  })
  const revision = await db.partRevision.create({
    data: {
      partId: part.id,
      letter: 'A',
      shape: 'square',
      widthMm: 38.1,
      heightMm: 38.1,
      wallMm: 3.175,
      materialId: '6061-T6',
      straightAfterMm: 400,
      startCut: { kind: 'square' },
      endCut: { kind: 'mitre', angleDeg: 45 },
      angleToleranceDeg: 1,
      bends: {
        create: [
          { position: 1, straightBeforeMm: 400, angleDeg: 32, centrelineRadiusMm: 300, rotationDeg: 0 },
          { position: 2, straightBeforeMm: 700, angleDeg: 20, centrelineRadiusMm: 300, rotationDeg: 90 },
        ],
      },
    },
  })
  const press = await db.press.create({
    data: {
      shopNumber: 'PR-1',
      name: '50 t shop press',
      capacityKn: 490,
      supportNoseRadiusMm: 25,
      minimumSpanMm: 200,
      maximumSpanMm: 1000,
    },
  })
  const strap = await db.strap.create({
    data: { shopNumber: 'ST-1', thicknessMm: 3, widthMm: 38, lengthMm: 900, yieldMPa: 250 },
  })
  const filler = await db.filler.create({
    data: { shopNumber: 'F-1', name: '158 F pot', fillerId: 'bi-158' },
  })
  if (options.withSetup !== false) {
    await db.setup.create({
      data: {
        revisionId: revision.id,
        support: 'lowMelt',
        pressId: press.id,
        supportSpanMm: 500,
        strapId: strap.id,
        fillerId: filler.id,
      },
    })
  }
  return { customerId: customer.id, partId: part.id, revisionId: revision.id, fillerId: filler.id }
}

/** An accepted quote line for the part, with breaks at 1 and 5 pieces. */
export async function quoteLine(part: { customerId: number; revisionId: number }): Promise<number> {
  const quote = await db.quote.create({
    data: {
      number: 'Q-0001',
      customerId: part.customerId,
      status: 'accepted',
      currency: 'USD',
      taxName: 'Sales tax',
      taxPpm: 0,
      validUntil: new Date('2026-12-31'),
      lines: {
        create: {
          position: 1,
          revisionId: part.revisionId,
          description: 'Davit arm',
          leadTimeDays: 14,
          acceptedQuantity: 6,
          breaks: {
            create: [
              { quantity: 1, unitCents: 40_000 },
              { quantity: 5, unitCents: 25_000 },
            ],
          },
        },
      },
    },
    select: { lines: { select: { id: true } } },
  })
  return quote.lines[0]?.id ?? 0
}

export async function lotOf(lengthsMm: readonly number[], heatNumber = '88121'): Promise<number[]> {
  const count = await db.stockLot.count()
  const lot = await db.stockLot.create({
    data: {
      number: `L-000${count + 1}`,
      materialId: '6061-T6',
      shape: 'square',
      widthMm: 38.1,
      heightMm: 38.1,
      wallMm: 3.175,
      heatNumber,
      receivedOn: new Date('2026-10-01'),
      priceCentsPerM: 2400,
      pieces: { create: lengthsMm.map((lengthMm) => ({ lengthMm })) },
    },
    select: { pieces: { select: { id: true }, orderBy: { id: 'asc' } } },
  })
  return lot.pieces.map(({ id }) => id)
}

export const dueOn = new Date('2026-12-18T00:00:00Z')
