import 'server-only'
import type { OperationOverride } from '@/lib/core/cost/operation'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import type { WayKey } from '@/lib/core/cost/ways'
import {
  isWay,
  type JobPlan,
  makePlan,
  methodOf,
  plannedOperations,
  wayOfSetup,
} from '@/lib/records/job/rules'
import type { JobInput, JobPress } from '@/lib/records/job/schema'
import { readLearnedFactor } from '@/lib/records/lesson/read'
import { sectionText } from '@/lib/records/lesson/rules'
import { operationPlan } from '@/lib/records/operation/rules'
import { newScanCode } from '@/lib/records/piece/write'
import { wholeRates } from '@/lib/records/rates/rules'
import { db, type Prisma, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import { asJson } from '@/lib/server/json'
import { nextNumber } from '@/lib/server/numbering'
import type { Actor } from '@/lib/server/session'

export type OpenedJob = { jobId: number; number: string }

/**
 * Makes an accepted quote line into its job, in the caller's transaction. However often and from however many sides
 * it is pressed, there is one job: the later ones are told of it.
 */
export async function openJobFromLine(
  tx: Tx,
  input: { quoteLineId: number; quantity: number; dueOn: Date },
  by: Actor | string,
): Promise<OpenedJob> {
  await tx.$queryRaw`select id from "QuoteLine" where id = ${input.quoteLineId} for update`
  const line = await tx.quoteLine.findUnique({
    where: { id: input.quoteLineId },
    select: {
      revisionId: true,
      job: { select: { id: true, number: true } },
      quote: { select: { customerId: true } },
      estimate: { select: { way: true, overrides: true } },
      breaks: { select: { quantity: true, unitCents: true }, orderBy: { quantity: 'desc' } },
    },
  })
  if (!line) throw new Refused('not-found', 'There is no such line on the quote.')
  if (line.job) return { jobId: line.job.id, number: line.job.number }
  const decision = await tx.decision.findFirst({
    where: { revisionId: line.revisionId },
    select: { way: true },
    orderBy: { decidedAt: 'desc' },
  })
  const way = line.estimate?.way ?? decision?.way ?? null
  const unitCents = line.breaks.find(({ quantity }) => quantity <= input.quantity)?.unitCents
  return makeJob(
    tx,
    {
      revisionId: line.revisionId,
      customerId: line.quote.customerId,
      quoteLineId: input.quoteLineId,
      quantity: input.quantity,
      dueOn: input.dueOn,
      way: way !== null && isWay(way) ? way : null,
      priceCents: unitCents === undefined ? null : unitCents * input.quantity,
      overrides: keptOverrides(line.estimate?.overrides),
    },
    by,
  )
}

/** Opens a job that no quote stands behind. */
export async function openJob(input: JobInput, actor: Actor): Promise<OpenedJob> {
  return db.$transaction((tx) =>
    makeJob(
      tx,
      {
        revisionId: input.revisionId,
        customerId: null,
        quoteLineId: null,
        quantity: input.quantity,
        dueOn: input.dueOn,
        way: input.way === '' ? null : input.way,
        priceCents: null,
        overrides: [],
      },
      actor,
    ),
  )
}

/** Makes the traveller again from the part's set-up, the stock reserved and the factor as they are now; older prints are void. */
export async function reissueTraveller(input: JobPress, actor: Actor): Promise<{ travellerIssue: number }> {
  return db.$transaction(async (tx) => {
    const job = await tx.job.findUnique({
      where: { id: input.id },
      select: { status: true, revisionId: true, way: true, travellerIssue: true },
    })
    if (!job) throw new Refused('not-found', 'There is no such job.')
    if (job.status !== 'open')
      throw new Refused('wrong-state', 'The job is closed; its traveller stays as it is.')
    const revision = await revisionForPlan(tx, job.revisionId)
    const way = isWay(job.way) ? job.way : 'hollow'
    const plan = await planFor(tx, revision, way, input.id)
    const { count } = await tx.job.updateMany({
      where: { id: input.id, version: input.version },
      data: { plan: asJson(plan), travellerIssue: { increment: 1 }, version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('job')
    const kept = await tx.jobOperation.findMany({
      where: { jobId: input.id },
      select: { id: true, key: true },
    })
    for (const operation of plannedOperations(revision, plan, defaultShopRates.times)) {
      const row = kept.find(({ key }) => key === operation.key)
      if (!row) continue
      const { instruction, setPoints } = operationPlan(operation.key, plan)
      await tx.jobOperation.update({
        where: { id: row.id },
        data: { instruction, setPoints: asJson(setPoints) },
      })
    }
    await recordChange(tx, {
      by: actor,
      action: 'reissued the traveller of',
      entity: 'Job',
      entityId: input.id,
      before: { travellerIssue: job.travellerIssue },
      after: { travellerIssue: job.travellerIssue + 1 },
    })
    return { travellerIssue: job.travellerIssue + 1 }
  })
}

type NewJob = {
  revisionId: number
  customerId: number | null
  quoteLineId: number | null
  quantity: number
  dueOn: Date
  way: WayKey | null
  priceCents: number | null
  overrides: readonly OperationOverride[]
}

async function makeJob(tx: Tx, wanted: NewJob, by: Actor | string): Promise<OpenedJob> {
  const revision = await revisionForPlan(tx, wanted.revisionId)
  const way = wanted.way ?? (revision.setup ? wayOfSetup(revision.setup) : 'hollow')
  if (!revision.frozenAt) {
    await tx.partRevision.updateMany({
      where: { id: wanted.revisionId, frozenAt: null },
      data: { frozenAt: new Date() },
    })
  }
  const plan = await planFor(tx, revision, way)
  const sheet = await tx.rateSheet.findFirst({ select: { rates: true }, orderBy: { id: 'desc' } })
  const { times } = sheet ? wholeRates(sheet.rates) : defaultShopRates
  const operations = plannedOperations(revision, plan, times, wanted.overrides)
  const number = await nextNumber(tx, 'job')
  const { id } = await tx.job.create({
    data: {
      number,
      customerId: wanted.customerId ?? revision.part.customerId,
      revisionId: wanted.revisionId,
      quoteLineId: wanted.quoteLineId,
      quantity: wanted.quantity,
      dueOn: wanted.dueOn,
      way,
      priceCents: wanted.priceCents,
      plan: asJson(plan),
      pieces: {
        createMany: {
          data: Array.from({ length: wanted.quantity }, (_, index) => ({
            number: index + 1,
            scanCode: newScanCode(),
          })),
        },
      },
      operations: {
        createMany: {
          data: operations.map((operation, index) => {
            const { instruction, setPoints } = operationPlan(operation.key, plan)
            return {
              position: index + 1,
              key: operation.key,
              name: operation.name,
              workCentre: operation.workCentre,
              instruction,
              setPoints: asJson(setPoints),
              plannedSetUpMinutes: operation.setUpMinutes.likely,
              plannedRunMinutesPerPiece: operation.runMinutesPerPiece.likely,
            }
          }),
        },
      },
    },
    select: { id: true },
  })
  await recordChange(tx, {
    by,
    action: 'opened',
    entity: 'Job',
    entityId: id,
    detailText: `${number}: ${wanted.quantity} of ${revision.part.number} revision ${revision.letter}`,
    after: { number, way, quantity: wanted.quantity, dueOn: wanted.dueOn, quoteLineId: wanted.quoteLineId },
  })
  return { jobId: id, number }
}

const planColumns = {
  letter: true,
  frozenAt: true,
  shape: true,
  widthMm: true,
  heightMm: true,
  wallMm: true,
  cornerRadiusMm: true,
  materialId: true,
  straightAfterMm: true,
  startCut: true,
  endCut: true,
  angleToleranceDeg: true,
  lengthToleranceMm: true,
  radiusToleranceMm: true,
  sectionToleranceFraction: true,
  weldedAfter: true,
  couldHurt: true,
  part: { select: { number: true, customerId: true } },
  bends: {
    select: {
      position: true,
      straightBeforeMm: true,
      angleDeg: true,
      centrelineRadiusMm: true,
      rotationDeg: true,
    },
    orderBy: { position: 'asc' },
  },
  setup: {
    select: {
      support: true,
      supportSpanMm: true,
      press: {
        select: {
          shopNumber: true,
          name: true,
          capacityKn: true,
          strokeMm: true,
          supportNoseRadiusMm: true,
          supportFrictionCoeff: true,
        },
      },
      die: { select: { shopNumber: true, surfaceRadiusMm: true, place: true } },
      strap: {
        select: {
          shopNumber: true,
          thicknessMm: true,
          widthMm: true,
          lengthMm: true,
          yieldMPa: true,
          frictionCoeff: true,
          place: true,
        },
      },
      filler: {
        select: {
          shopNumber: true,
          name: true,
          fillerId: true,
          lotText: true,
          yieldMPa: true,
          modulusMPa: true,
        },
      },
    },
  },
} as const satisfies Prisma.PartRevisionSelect

type RevisionForPlan = Prisma.PartRevisionGetPayload<{ select: typeof planColumns }>

async function revisionForPlan(tx: Tx, revisionId: number): Promise<RevisionForPlan> {
  const revision = await tx.partRevision.findUnique({ where: { id: revisionId }, select: planColumns })
  if (!revision) throw new Refused('not-found', 'There is no such part revision.', 'revisionId')
  return revision
}

/** The plan from everything as it stands now: set-up, shop, what was learned, and the certificate of the stock reserved for the job. */
async function planFor(tx: Tx, revision: RevisionForPlan, way: WayKey, jobId?: number): Promise<JobPlan> {
  const shop = await tx.shop.findUniqueOrThrow({
    where: { id: 1 },
    select: { pressUseFraction: true, trimMm: true, kerfMm: true, lengthUnit: true },
  })
  const entry = await tx.materialEntry.findUnique({
    where: { id: revision.materialId },
    select: { data: true },
  })
  const parts = {
    way,
    revision,
    setup: revision.setup,
    shop,
    materialEntry: entry?.data ?? null,
    certificate: jobId === undefined ? null : await certificateOf(tx, jobId),
    madeAt: new Date().toISOString(),
  }
  const learned = await readLearnedFactor(tx, {
    materialId: revision.materialId,
    sectionText: sectionText(revision),
    method: methodOf(way, revision.setup),
    ...(jobId !== undefined && { jobId }),
  })
  return makePlan({ ...parts, factor: { value: learned.mean, sd: learned.sd, text: learned.text } })
}

/** The certificate's values where all stock reserved for the job is of one lot that has them. */
async function certificateOf(tx: Tx, jobId: number) {
  const lots = await tx.stockLot.findMany({
    where: { pieces: { some: { reservedForJobId: jobId } } },
    select: {
      number: true,
      heatNumber: true,
      certificateYieldMPa: true,
      certificateTensileMPa: true,
      certificateElongationPct: true,
    },
    take: 2,
  })
  const [lot] = lots
  if (lots.length !== 1 || !lot?.certificateYieldMPa || !lot.certificateTensileMPa) return null
  return {
    yieldMPa: lot.certificateYieldMPa,
    tensileMPa: lot.certificateTensileMPa,
    elongationPct: lot.certificateElongationPct,
    text: `lot ${lot.number}, heat ${lot.heatNumber || 'not noted'}`,
  }
}

function keptOverrides(kept: unknown): OperationOverride[] {
  return Array.isArray(kept)
    ? (kept as OperationOverride[]).filter((one) => typeof one?.operationKey === 'string')
    : []
}
