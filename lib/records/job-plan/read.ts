import 'server-only'
import type { WayKey } from '@/lib/core/cost/ways'
import { type JobPlan, makePlan, methodOf } from '@/lib/records/job/rules'
import { readLearnedFactor } from '@/lib/records/lesson/read'
import { sectionText } from '@/lib/records/lesson/rules'
import type { Prisma, Tx } from '@/lib/server/db'
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

export type RevisionForPlan = Prisma.PartRevisionGetPayload<{ select: typeof planColumns }>

/** A revision with all that a plan is made from. */
export async function readRevisionForPlan(tx: Tx, revisionId: number): Promise<RevisionForPlan> {
  const revision = await tx.partRevision.findUnique({ where: { id: revisionId }, select: planColumns })
  if (!revision) throw new Refused('not-found', 'There is no such part revision.', 'revisionId')
  return revision
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
