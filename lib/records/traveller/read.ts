import 'server-only'
import type { EndCut } from '@/lib/core/drawing/part'
import { isWay, type JobPlan } from '@/lib/records/job/rules'
import { readPlanNow, readRevisionForPlan } from '@/lib/records/job-plan/read'
import type { SetPoint } from '@/lib/records/operation/rules'
import {
  type FirstArticlePiece,
  type JobPapers,
  planChanges,
  type TravellerStanding,
} from '@/lib/records/traveller/rules'
import { db } from '@/lib/server/db'

const lotColumns = {
  number: true,
  heatNumber: true,
  place: true,
  certificateFile: { select: { name: true } },
} as const

/** What a job's papers are filled from; null when there is no such job. */
export async function readJobPapers(
  id: number,
): Promise<(JobPapers & { id: number; version: number; status: string; revisionId: number }) | null> {
  const job = await db.job.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      version: true,
      status: true,
      quantity: true,
      dueOn: true,
      way: true,
      plan: true,
      travellerIssue: true,
      revisionId: true,
      customer: { select: { name: true, addressText: true } },
      quoteLine: { select: { quote: { select: { number: true } } } },
      revision: {
        select: {
          letter: true,
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
          notesText: true,
          typicalQuantity: true,
          bends: {
            orderBy: { position: 'asc' },
            select: { straightBeforeMm: true, angleDeg: true, centrelineRadiusMm: true, rotationDeg: true },
          },
          part: {
            select: {
              id: true,
              number: true,
              name: true,
              customerRef: true,
              revisions: { orderBy: { id: 'desc' }, take: 1, select: { letter: true } },
            },
          },
        },
      },
      operations: {
        where: { leftOutAtIssue: null },
        orderBy: { position: 'asc' },
        select: {
          position: true,
          key: true,
          name: true,
          instruction: true,
          setPoints: true,
          plannedSetUpMinutes: true,
          plannedRunMinutesPerPiece: true,
        },
      },
      pieces: {
        orderBy: { number: 'asc' },
        select: {
          number: true,
          status: true,
          scanCode: true,
          stockPiece: { select: { lot: { select: lotColumns } } },
        },
      },
      stockPieces: { orderBy: { id: 'asc' }, select: { lot: { select: lotColumns } } },
    },
  })
  if (!job) return null
  const { startCut, endCut } = job.revision
  return {
    ...job,
    plan: job.plan as unknown as JobPlan,
    revision: { ...job.revision, startCut: startCut as EndCut, endCut: endCut as EndCut },
    operations: job.operations.map((one) => ({ ...one, setPoints: one.setPoints as unknown as SetPoint[] })),
  }
}

/** Whether the traveller of a job still says what the shop would make it by now. */
export async function readTravellerStanding(jobId: number): Promise<TravellerStanding | null> {
  const job = await db.job.findUnique({
    where: { id: jobId },
    select: {
      status: true,
      way: true,
      plan: true,
      revisionId: true,
      revision: {
        select: {
          letter: true,
          part: { select: { revisions: { orderBy: { id: 'desc' }, take: 1, select: { letter: true } } } },
        },
      },
    },
  })
  if (!job) return null
  const made = job.plan as unknown as JobPlan
  const newest = job.revision.part.revisions[0]?.letter ?? job.revision.letter
  const rest = {
    newerRevision: newest === job.revision.letter ? null : newest,
    madeAt: made.madeAt,
  }
  // A finished job's papers say what it was made by, whatever the shop has changed since.
  if (job.status !== 'open') return { changes: [], ...rest }
  const shop = await db.shop.findUniqueOrThrow({ where: { id: 1 }, select: { lengthUnit: true } })
  const revision = await readRevisionForPlan(db, job.revisionId)
  const now = await readPlanNow(db, revision, isWay(job.way) ? job.way : 'hollow', jobId)
  return { changes: planChanges(made, now, shop.lengthUnit), ...rest }
}

/** The first piece that was measured at every bend, for its report; null while there is none. */
export async function readFirstArticle(jobId: number): Promise<FirstArticlePiece | null> {
  const pieces = await db.piece.findMany({
    where: { jobId, status: { not: 'scrapped' }, bendRecords: { some: { verdict: { not: 'waiting' } } } },
    orderBy: { number: 'asc' },
    take: 1,
    select: {
      number: true,
      faults: { where: { disposition: null }, select: { number: true, description: true } },
      job: {
        select: {
          faults: {
            where: { pieceId: null, disposition: null },
            select: { number: true, description: true },
          },
        },
      },
      bendRecords: {
        orderBy: [{ bendPosition: 'asc' }, { tryNumber: 'asc' }],
        select: {
          bendPosition: true,
          tryNumber: true,
          verdict: true,
          at: true,
          by: { select: { name: true } },
          angleFinalDeg: true,
          radiusMm: true,
          widthOutsideMm: true,
          widthMiddleMm: true,
          widthInsideMm: true,
          heightMm: true,
          wallOutsideMm: true,
          wallInsideMm: true,
          look: true,
          dyePenetrant: true,
          gaugeText: true,
          gaugeUncertaintyDeg: true,
          faults: { select: { disposition: true } },
        },
      },
    },
  })
  const [piece] = pieces
  if (!piece) return null
  const { job, faults, ...rest } = piece
  return { ...rest, openFaults: [...faults, ...job.faults] }
}
