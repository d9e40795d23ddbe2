import 'server-only'
import type { OperationOverride } from '@/lib/core/cost/operation'
import type { OperationTimes } from '@/lib/core/cost/operation-times'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import type { WayKey } from '@/lib/core/cost/ways'
import { ownAlloyColumns, withOwn } from '@/lib/records/filler-alloy/rules'
import { bentMaterialId, isWay, type JobPlan, makePlan, methodOf } from '@/lib/records/job/rules'
import {
  type OperationChanges,
  operationChanges,
  operationTexts,
  plannedOperations,
  type QuotedWork,
  quotedWork,
  targetTexts,
  wayByNow,
  wayText,
} from '@/lib/records/job-plan/rules'
import { readLearnedFactor } from '@/lib/records/lesson/read'
import { sectionText } from '@/lib/records/lesson/rules'
import { wholeRates } from '@/lib/records/rates/rules'
import { planChanges } from '@/lib/records/traveller/rules'
import { db, type Prisma, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'

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
  generalTolerance: true,
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
          densityKgM3: true,
          ...ownAlloyColumns,
        },
      },
    },
  },
} as const satisfies Prisma.PartRevisionSelect

type RevisionRow = Prisma.PartRevisionGetPayload<{ select: typeof planColumns }>

function withOwnAlloy(revision: RevisionRow) {
  const { setup } = revision
  return { ...revision, setup: setup && { ...setup, filler: setup.filler && withOwn(setup.filler) } }
}
export type RevisionForPlan = ReturnType<typeof withOwnAlloy>

/** A revision with all that a plan is made from. */
export async function readRevisionForPlan(tx: Tx, revisionId: number): Promise<RevisionForPlan> {
  const revision = await tx.partRevision.findUnique({ where: { id: revisionId }, select: planColumns })
  if (!revision) throw new Refused('not-found', 'There is no such part revision.', 'revisionId')
  return withOwnAlloy(revision)
}

/** The plan from everything as it stands now: set-up, shop, what was learned, and the certificate of the stock reserved for the job. */
export async function readPlanNow(
  tx: Tx,
  revision: RevisionForPlan,
  way: WayKey,
  jobId?: number,
): Promise<JobPlan> {
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
    materialId: bentMaterialId(way, revision.materialId),
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

/** The shop's times for each operation as its newest sheet of rates has them. */
export async function readTimes(tx: Tx): Promise<OperationTimes> {
  const sheet = await tx.rateSheet.findFirst({ select: { rates: true }, orderBy: { id: 'desc' } })
  return sheet ? wholeRates(sheet.rates).times : defaultShopRates.times
}

/** What planning a job again would change, before anybody does it. */
export async function readNextIssue(jobId: number, asked?: WayKey): Promise<PlanAgain | null> {
  return readPlanAgain(db, jobId, asked)
}

/** What a kept estimate says of the work it was quoted for. */
export function quotedOf(estimate: { inputs: unknown; overrides: unknown } | null | undefined): {
  work: QuotedWork | null
  overrides: readonly OperationOverride[]
} {
  const { overrides } = estimate ?? {}
  return {
    work: quotedWork(estimate?.inputs),
    overrides: Array.isArray(overrides)
      ? (overrides as OperationOverride[]).filter((one) => typeof one?.operationKey === 'string')
      : [],
  }
}

export type PlanAgain = {
  jobId: number
  number: string
  partName: string
  status: string
  version: number
  issue: number
  wayMade: WayKey
  way: WayKey
  plan: JobPlan
  operations: OperationChanges
  /** All that is other than in the issue before, in words; empty where nothing is. */
  changes: string[]
}

/**
 * A job planned again from the part's set-up, the decision, the stock reserved and what was learned, as they are now, and
 * what that changes. The way is the one asked for, or else the one that holds by now. Null when there is no such job.
 */
export async function readPlanAgain(tx: Tx, jobId: number, asked?: WayKey): Promise<PlanAgain | null> {
  const job = await tx.job.findUnique({
    where: { id: jobId },
    select: {
      number: true,
      status: true,
      version: true,
      travellerIssue: true,
      revisionId: true,
      revision: { select: { part: { select: { name: true } } } },
      way: true,
      plan: true,
      quoteLine: { select: { estimate: { select: { way: true, inputs: true, overrides: true } } } },
      operations: {
        orderBy: { position: 'asc' },
        select: {
          id: true,
          key: true,
          name: true,
          doneAt: true,
          leftOutAtIssue: true,
          logs: { select: { id: true }, take: 1 },
        },
      },
    },
  })
  if (!job) return null
  const made = job.plan as unknown as JobPlan
  const wayMade = isWay(job.way) ? job.way : 'hollow'
  const revision = await readRevisionForPlan(tx, job.revisionId)
  const decision = await tx.decision.findFirst({
    where: { revisionId: job.revisionId },
    select: { way: true, decidedAt: true },
    orderBy: { decidedAt: 'desc' },
  })
  const decided = decision && isWay(decision.way) ? { ...decision, way: decision.way } : null
  const way = asked ?? wayByNow({ way: wayMade, madeAt: made.madeAt }, revision.setup, decided)
  const plan = await readPlanNow(tx, revision, way, jobId)
  const { lengthUnit } = await tx.shop.findUniqueOrThrow({ where: { id: 1 }, select: { lengthUnit: true } })
  const estimate = job.quoteLine?.estimate
  // What was quoted counts only for the way that it was quoted in.
  const quoted = quotedOf(estimate?.way === way ? estimate : null)
  const operations = operationChanges(
    job.operations.map(({ doneAt, logs, ...row }) => ({
      ...row,
      begun: doneAt !== null || logs.length > 0,
    })),
    plannedOperations(revision, plan, await readTimes(tx), quoted),
  )
  return {
    jobId,
    number: job.number,
    partName: job.revision.part.name,
    status: job.status,
    version: job.version,
    issue: job.travellerIssue,
    wayMade,
    way,
    plan,
    operations,
    changes: [
      ...wayText(wayMade, way),
      ...planChanges(made, plan, lengthUnit).filter((text) => !text.startsWith('way was')),
      ...targetTexts(made, plan),
      ...operationTexts(operations),
    ],
  }
}
