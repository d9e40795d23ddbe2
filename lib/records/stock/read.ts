import 'server-only'
import type { LengthUnit } from '@/lib/core/units'
import { type LotSize, type SearchTerm, sameSizeMm, searchTerms } from '@/lib/records/stock/rules'
import { db, type Prisma } from '@/lib/server/db'

export const lotsPerPage = 50

function termWhere({ text, lengthMm }: SearchTerm): Prisma.StockLotWhereInput {
  const any: Prisma.StockLotWhereInput[] = []
  if (text !== null) {
    const contains = { contains: text, mode: 'insensitive' as const }
    any.push(
      { number: contains },
      { heatNumber: contains },
      { materialId: contains },
      { supplierText: contains },
      { place: contains },
    )
    const shape = (['square', 'rectangular', 'round'] as const).find((one) => one === text.toLowerCase())
    if (shape) any.push({ shape })
  }
  if (lengthMm !== null) {
    const near = { gte: lengthMm - sameSizeMm, lte: lengthMm + sameSizeMm }
    any.push({ widthMm: near }, { heightMm: near }, { wallMm: near })
  }
  return { OR: any }
}

/** A page of lots by material and size, each with what is left of it. */
export async function readLots(query: {
  search: string
  lengthUnit: LengthUnit
  page: number
  usedUp: boolean
}) {
  const where: Prisma.StockLotWhereInput = {
    AND: searchTerms(query.search, query.lengthUnit).map(termWhere),
    pieces: query.usedUp ? { none: { usedAt: null } } : { some: { usedAt: null } },
  }
  const [count, lots] = await Promise.all([
    db.stockLot.count({ where }),
    db.stockLot.findMany({
      where,
      orderBy: [{ materialId: 'asc' }, { widthMm: 'asc' }, { wallMm: 'asc' }, { id: 'asc' }],
      skip: (query.page - 1) * lotsPerPage,
      take: lotsPerPage,
      select: {
        id: true,
        number: true,
        materialId: true,
        shape: true,
        widthMm: true,
        heightMm: true,
        wallMm: true,
        heatNumber: true,
        place: true,
        certificateFileId: true,
        pieces: {
          where: { usedAt: null },
          select: { lengthMm: true, isOffcut: true, reservedForJobId: true },
        },
      },
    }),
  ])
  return { lots, pageCount: Math.max(1, Math.ceil(count / lotsPerPage)) }
}

export type ListedLot = Awaited<ReturnType<typeof readLots>>['lots'][number]

/** Whether anything was ever received, to tell an empty rack from a new one. */
export async function anyLot(): Promise<boolean> {
  return (await db.stockLot.findFirst({ select: { id: true } })) !== null
}

/** One lot with every bar it ever had, and the pieces of jobs that were cut from them. */
export async function readLot(id: number) {
  const lot = await db.stockLot.findUnique({
    where: { id },
    include: {
      certificateFile: { select: { id: true, name: true, byteCount: true } },
      pieces: {
        orderBy: [{ usedAt: { sort: 'desc', nulls: 'first' } }, { lengthMm: 'desc' }, { id: 'asc' }],
        take: 500,
        include: {
          reservedForJob: { select: { id: true, number: true } },
          pieces: {
            orderBy: { id: 'asc' },
            select: {
              id: true,
              number: true,
              status: true,
              job: {
                select: {
                  id: true,
                  number: true,
                  customer: { select: { name: true } },
                  revision: { select: { part: { select: { id: true, name: true } } } },
                },
              },
            },
          },
        },
      },
    },
  })
  if (!lot) return null
  const last = await db.auditEntry.findMany({
    where: { entity: 'StockPiece', entityId: { in: lot.pieces.map((piece) => String(piece.id)) } },
    orderBy: { id: 'asc' },
    select: { entityId: true, action: true, detailText: true },
  })
  const lastOf = new Map(last.map((entry) => [entry.entityId, entry]))
  const pieces = lot.pieces.map((piece) => ({ ...piece, last: lastOf.get(String(piece.id)) ?? null }))
  return { ...lot, pieces }
}

export type ReadLot = NonNullable<Awaited<ReturnType<typeof readLot>>>
export type LotBar = ReadLot['pieces'][number]

/** Each material and size the shop ever bought, with its latest price: what a cutting plan can be asked for. */
export async function readTubes() {
  return db.stockLot.findMany({
    distinct: ['materialId', 'shape', 'widthMm', 'heightMm', 'wallMm'],
    orderBy: [
      { materialId: 'asc' },
      { shape: 'asc' },
      { widthMm: 'asc' },
      { heightMm: 'asc' },
      { wallMm: 'asc' },
      { receivedOn: 'desc' },
      { id: 'desc' },
    ],
    take: 500,
    select: {
      id: true,
      materialId: true,
      shape: true,
      widthMm: true,
      heightMm: true,
      wallMm: true,
      priceCentsPerM: true,
    },
  })
}

/** What lies free on the rack of one tube: neither cut up nor reserved. */
export async function readFreeBars(tube: LotSize & { materialId: string }) {
  const { materialId, shape, widthMm, heightMm, wallMm } = tube
  return db.stockPiece.findMany({
    where: {
      usedAt: null,
      reservedForJobId: null,
      lot: { materialId, shape, widthMm, heightMm, wallMm },
    },
    orderBy: [{ lengthMm: 'desc' }, { id: 'asc' }],
    take: 300,
    select: {
      id: true,
      lengthMm: true,
      isOffcut: true,
      place: true,
      lot: { select: { id: true, number: true, heatNumber: true, priceCentsPerM: true, place: true } },
    },
  })
}
