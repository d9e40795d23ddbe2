import 'server-only'
import { createHash } from 'node:crypto'
import type { Estimate } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import type { EndCut } from '@/lib/core/drawing/part'
import { planTube, type TubePlan } from '@/lib/core/stock/tube-plan'
import type { WayBasis } from '@/lib/core/ways/way-basis'
import {
  type EstimateAsk,
  type EstimateGround,
  type EstimateResults,
  estimateAt,
  estimateInputOf,
  type HomeWay,
  keptInputs,
  noTube,
  type TubeStock,
  tubeQuestionOf,
} from '@/lib/records/estimate/rules'
import { type EstimateAge, estimateAge } from '@/lib/records/estimate-age/rules'
import type { YieldRecord } from '@/lib/records/estimate-rate/rules'
import { alloyInPot, type PotFacts } from '@/lib/records/filler-alloy/rules'
import { firstTryPieces, sectionText } from '@/lib/records/lesson/rules'
import { type Revision, readLearnedFactors, readOwnMaterial, readRevision } from '@/lib/records/part/read'
import { wholeRates } from '@/lib/records/rates/rules'
import { readSetup, readTooling } from '@/lib/records/setup/read'
import { chosenTools, firstSetup } from '@/lib/records/setup/rules'
import { sameSizeMm } from '@/lib/records/stock/rules'
import { fillerBalances } from '@/lib/records/tooling/read'
import { wayBases } from '@/lib/records/way/rules'
import { db, type Prisma } from '@/lib/server/db'

/** Everything an estimate of this revision is made from, as it stands now; null where there is no such revision. */
export async function readEstimateGround(
  revisionId: number,
): Promise<{ ground: EstimateGround; part: NonNullable<Awaited<ReturnType<typeof readRevision>>> } | null> {
  const part = await readRevision(revisionId)
  if (!part) return null
  const [shop, setup, tooling, ownMaterial, sheet, tubes, outsideQuoteCount, balances, yieldRecord, learned] =
    await Promise.all([
      db.shop.findUniqueOrThrow({ where: { id: 1 } }),
      readSetup(revisionId),
      readTooling(revisionId),
      readOwnMaterial(part.materialId),
      db.rateSheet.findFirstOrThrow({ orderBy: { id: 'desc' } }),
      readTubeStock(part),
      db.ask.count({ where: { revisionId, status: 'quoted' } }),
      fillerBalances(db),
      readYieldRecord(part),
      readLearnedFactors(part),
    ])
  const suggested =
    setup ??
    firstSetup(
      tooling,
      {
        heightMm: part.heightMm,
        centrelineRadiusMm: Math.max(0, ...part.bends.map((bend) => bend.centrelineRadiusMm)),
      },
      shop.lengthUnit,
    )
  const chosen = suggested && chosenTools(suggested, tooling)
  const press = chosen && tooling.presses.find(({ id }) => id === suggested.pressId)
  const pot =
    tooling.fillers.find((one) => one.id === setup?.fillerId && isLowMelt(one)) ??
    tooling.fillers.find((one) => isLowMelt(one) && !one.retired)
  const strap =
    tooling.straps.find(({ id }) => id === setup?.strapId) ??
    tooling.straps.find(
      ({ widthMm, retired }) => !retired && Math.abs(widthMm - part.widthMm) <= 0.2 * part.widthMm,
    )
  const {
    part: _part,
    id: _id,
    letter: _letter,
    createdAt: _at,
    frozenAt: _frozen,
    version: _v,
    ...facts
  } = part
  const ground: EstimateGround = {
    revision: facts,
    setup: chosen && press ? { ...chosen, press } : null,
    isSetupSaved: setup !== null,
    tools: {
      dieRadiiMm: tooling.dies
        .filter(({ retired }) => !retired)
        .map(({ surfaceRadiusMm }) => surfaceRadiusMm),
      strap: strap
        ? {
            thicknessMm: strap.thicknessMm,
            widthMm: strap.widthMm,
            yieldMPa: strap.yieldMPa,
            frictionCoeff: strap.frictionCoeff,
          }
        : null,
      pot: pot
        ? {
            shopNumber: pot.shopNumber,
            name: pot.name,
            fillerId: pot.fillerId,
            yieldMPa: pot.yieldMPa,
            modulusMPa: pot.modulusMPa,
            densityKgM3: pot.densityKgM3,
            inPotKg: balances.get(pot.id)?.inPotKg ?? 0,
            ...(pot.own && { own: pot.own }),
          }
        : null,
    },
    shop: {
      pressUseFraction: shop.pressUseFraction,
      trimMm: shop.trimMm,
      kerfMm: shop.kerfMm,
      lengthUnit: shop.lengthUnit,
      currency: shop.currency,
    },
    ownMaterial,
    learned,
    rateSheetId: sheet.id,
    ratesOn: sheet.createdAt.toISOString(),
    rates: wholeRates(sheet.rates),
    yieldRecord,
    tubes,
    outsideQuoteCount,
  }
  return { ground, part }
}

/** The newest: how often a bend comes good is the shop's of today, and the newest tries say most of it. */
const mostTries = 20_000

/** Pieces whose first tries the owner has taken in, those of the revision's tube apart. */
async function readYieldRecord(revision: Revision): Promise<YieldRecord | null> {
  const tries = await db.lesson.findMany({
    where: { kind: 'firstTry', acceptedAt: { not: null }, bendRecordId: { not: null } },
    orderBy: { id: 'desc' },
    take: mostTries,
    select: { value: true, materialId: true, sectionText: true, bendRecord: { select: { pieceId: true } } },
  })
  if (tries.length === 0) return null
  const piecesOf = (some: typeof tries) =>
    firstTryPieces(
      some.flatMap(({ value, bendRecord }) =>
        bendRecord ? [{ pieceId: bendRecord.pieceId, good: value === 1 }] : [],
      ),
    )
  const section = sectionText(revision)
  const ofTube = tries.filter((one) => one.materialId === revision.materialId && one.sectionText === section)
  return { ...piecesOf(tries), tube: piecesOf(ofTube) }
}

const isLowMelt = (pot: PotFacts): boolean => alloyInPot(pot)?.kind === 'lowMelt'

/** Every free bar of the revision's size, by material: soft ways are cut from another temper of it. */
async function readTubeStock(revision: Revision): Promise<TubeStock[]> {
  const near = (mm: number) => ({ gte: mm - sameSizeMm, lte: mm + sameSizeMm })
  const lots = await db.stockLot.findMany({
    where: {
      shape: revision.shape,
      widthMm: near(revision.widthMm),
      heightMm: near(revision.heightMm),
      wallMm: near(revision.wallMm),
    },
    orderBy: [{ receivedOn: 'desc' }, { id: 'desc' }],
    take: 200,
    select: {
      materialId: true,
      number: true,
      place: true,
      priceCentsPerM: true,
      pieces: {
        where: { usedAt: null, reservedForJobId: null },
        orderBy: [{ lengthMm: 'desc' }, { id: 'asc' }],
        take: 100,
        select: { id: true, lengthMm: true, isOffcut: true, place: true },
      },
    },
  })
  const stock = new Map<string, TubeStock>()
  for (const lot of lots) {
    const tube = stock.get(lot.materialId) ?? {
      materialId: lot.materialId,
      latestCentsPerM: lot.priceCentsPerM,
      bars: [],
    }
    stock.set(lot.materialId, tube)
    for (const { id, lengthMm, isOffcut, place } of lot.pieces) {
      const where = place || lot.place
      tube.bars.push({
        key: `rack-${id}`,
        lengthMm,
        isOffcut,
        centsPerM: lot.priceCentsPerM,
        name: `${lot.number} bar ${id}${where ? ` at ${where}` : ''}`,
      })
    }
  }
  return [...stock.values()]
}

/** A short mark of all that an estimate is made from: another one means that something changed meanwhile. */
export function groundMark(ground: EstimateGround): string {
  const { outsideQuoteCount: _, ...costed } = ground
  return createHash('sha256').update(JSON.stringify(costed)).digest('hex').slice(0, 16)
}

/** One quantity of an estimate, whole: what was asked, how the tube is cut, what came out. */
export type EstimatedQuantity = { input: EstimateInput; tube: TubePlan; estimate: Estimate }

/** How the tube of each quantity is cut. */
export async function planTubes(
  ground: EstimateGround,
  basis: WayBasis,
  ask: EstimateAsk,
): Promise<{ pieceCount: number; tube: TubePlan }[]> {
  const plans: { pieceCount: number; tube: TubePlan }[] = []
  for (const pieceCount of ask.quantities) {
    plans.push({ pieceCount, tube: await planTube(tubeQuestionOf(ground, basis, ask, pieceCount)) })
  }
  return plans
}

/**
 * The estimate of a revision at every quantity asked, from the shop's records as they stand; null where this way has
 * nothing to cost. Tube that is short is counted as nothing and said so by `tube.material` being null.
 */
export async function makeEstimates(
  ground: EstimateGround,
  ask: EstimateAsk,
  bases: readonly WayBasis[] = wayBases(ground),
): Promise<{ basis: WayBasis; quantities: EstimatedQuantity[] } | null> {
  const basis = bases.find(({ way }) => way === ask.way)
  if (!basis?.part) return null
  const plans = await planTubes(ground, basis, ask)
  const from = {
    rates: ground.rates,
    lengthUnit: ground.shop.lengthUnit,
    startCut: cutKind(ground.revision.startCut),
    endCut: cutKind(ground.revision.endCut),
  }
  const quantities = plans.flatMap(({ pieceCount, tube }): EstimatedQuantity[] => {
    const input = estimateInputOf(basis, ask, from, { pieceCount, material: tube.material ?? noTube })
    return input ? [{ input, tube, estimate: estimateAt(input) }] : []
  })
  return { basis, quantities }
}

function cutKind(cut: EndCut): EndCut['kind'] {
  return cut.kind
}

const versionSelect = {
  id: true,
  number: true,
  way: true,
  quantities: true,
  createdAt: true,
  inputs: true,
  results: true,
  rateSheet: { select: { id: true, createdAt: true } },
  createdBy: { select: { name: true } },
  quoteLines: {
    orderBy: { id: 'asc' },
    select: { id: true, quote: { select: { id: true, number: true, status: true } } },
  },
} as const satisfies Prisma.EstimateSelect

type VersionRow = Prisma.EstimateGetPayload<{ select: typeof versionSelect }>

/** Kept by `saveEstimate` and never changed: its JSON is what that wrote. */
function versionOf({ way, inputs, results, ...row }: VersionRow) {
  return {
    ...row,
    way: way as HomeWay,
    inputs: keptInputs(inputs),
    results: results as unknown as EstimateResults,
  }
}

export type EstimateVersion = ReturnType<typeof versionOf>

/** The versions of a revision, newest first. */
export async function readEstimates(revisionId: number): Promise<EstimateVersion[]> {
  const rows = await db.estimate.findMany({
    where: { revisionId },
    orderBy: { number: 'desc' },
    take: 50,
    select: versionSelect,
  })
  return rows.map(versionOf)
}

/** One version with the revision and part it is of, as the revision stands now. */
export async function readEstimate(id: number) {
  const row = await db.estimate.findUnique({ where: { id }, select: { ...versionSelect, revisionId: true } })
  if (!row) return null
  const { revisionId, ...version } = row
  return { ...versionOf(version), revisionId }
}

/** For each estimate named, whether what it was made from has changed, and the newest version there is. */
export async function readEstimateAges(
  estimateIds: readonly number[],
): Promise<Map<number, { age: EstimateAge; number: number; newestNumber: number }>> {
  const ages = new Map<number, { age: EstimateAge; number: number; newestNumber: number }>()
  if (estimateIds.length === 0) return ages
  const rows = await db.estimate.findMany({
    where: { id: { in: [...estimateIds] } },
    select: { id: true, number: true, revisionId: true, inputs: true },
  })
  for (const { id, number, revisionId, inputs } of rows) {
    const read = await readEstimateGround(revisionId)
    if (!read) continue
    const last = await db.estimate.aggregate({ where: { revisionId }, _max: { number: true } })
    const made = keptInputs(inputs).ground
    ages.set(id, { age: estimateAge(made, read.ground), number, newestNumber: last._max.number ?? number })
  }
  return ages
}

/** Drafts of the part's customer that an estimate can be taken into. */
export async function readDraftQuotes(customerId: number) {
  return db.quote.findMany({
    where: { customerId, status: 'draft' },
    orderBy: { id: 'desc' },
    take: 50,
    select: { id: true, number: true },
  })
}
