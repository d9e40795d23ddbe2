import { randomBytes } from 'node:crypto'
import { logTry } from '@/lib/records/bend-record/write'
import { fillerUseForm } from '@/lib/records/filler-use/schema'
import { enterJobFiller } from '@/lib/records/filler-use/write'
import type { JobPlan } from '@/lib/records/job/rules'
import { jobForm } from '@/lib/records/job/schema'
import { openJob } from '@/lib/records/job/write'
import { closeForm } from '@/lib/records/job-end/schema'
import { closeJob } from '@/lib/records/job-end/write'
import { decideLesson } from '@/lib/records/lesson/write'
import { startOperation, stopOperation } from '@/lib/records/operation/write'
import { cutPiecesForm, stockChoice } from '@/lib/records/piece/schema'
import { cutPieces, reserveStock } from '@/lib/records/piece/write'
import { readyPieces } from '@/lib/records/progress/rules'
import { releasePieces } from '@/lib/records/release/write'
import { newLotForm } from '@/lib/records/stock/schema'
import { receiveLot } from '@/lib/records/stock/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { type SavedPart, typedTry } from './orders'

type Units = { lengthUnit: 'in'; currency: string }

const dayMs = 86_400_000
const isoDay = (daysAhead: number) => new Date(Date.now() + daysAhead * dayMs).toISOString().slice(0, 10)
/** Twenty feet, as mills sell it. */
const barMm = 6096

const demoJobColumns = {
  id: true,
  plan: true,
  revision: {
    select: { materialId: true, shape: true, widthMm: true, heightMm: true, wallMm: true },
  },
  pieces: { orderBy: { number: 'asc' }, select: { id: true, status: true } },
} as const

/** Lots with heat numbers for every tube on order, each job's pieces cut from them, filler out and back, one job closed. */
export async function loadDemoStock(parts: readonly SavedPart[], units: Units, owner: Actor): Promise<void> {
  const first = parts[0]
  const closing = first ? await openFirstBatch(first.revisionId, owner) : null
  const jobs = await db.job.findMany({ orderBy: { id: 'asc' }, select: demoJobColumns })
  for (const [index, job] of jobs.entries()) {
    await receiveFor(job, index, units, owner)
    await cutFor(job, units, owner)
    await pourFor(job, job.id === closing, units, owner)
  }
  if (closing !== null) {
    await bendWhole(closing, units, owner)
    await runClocks(closing, owner)
  }
  for (const job of jobs) await releaseReady(job.id, owner)
  if (closing !== null) await closeAndLearn(closing, owner)
}

async function openFirstBatch(revisionId: number, owner: Actor): Promise<number> {
  const typed = { revisionId: String(revisionId), quantity: '4', dueOn: isoDay(-20), way: '' }
  return (await openJob(jobForm.parse(typed), owner)).jobId
}

type DemoJob = {
  id: number
  plan: unknown
  revision: { materialId: string; shape: string; widthMm: number; heightMm: number; wallMm: number }
  pieces: readonly { id: number; status: string }[]
}

const suppliers = ['Northreach Metals', 'Harrow Tube Stock', 'Pellane Alloys']

/** A lot for the job's tube, with two bars to spare; a job of a tube that was received already uses that lot. */
async function receiveFor(job: DemoJob, index: number, units: Units, owner: Actor): Promise<void> {
  const { materialId, shape, widthMm, heightMm, wallMm } = job.revision
  const needed = barsNeeded(job)
  const have = await db.stockPiece.count({
    where: {
      usedAt: null,
      reservedForJobId: null,
      isOffcut: false,
      lot: { materialId, widthMm, heightMm, wallMm },
    },
  })
  if (have >= needed + 1) return
  const lot = newLotForm(units).parse({
    materialId,
    shape,
    widthMm: `${widthMm} mm`,
    heightMm: shape === 'rectangular' ? `${heightMm} mm` : '',
    wallMm: `${wallMm} mm`,
    cornerRadiusMm: '',
    heatNumber: `H${22_914 + 317 * index}`,
    supplierText: suppliers[index % suppliers.length],
    receivedOn: isoDay(-30 - index),
    priceCents: '4.57',
    pricedBy: 'ft',
    place: `Rack ${1 + (index % 4)}`,
    certificateYieldMPa: '',
    certificateTensileMPa: '',
    certificateElongationPct: '',
    bars: [{ barCount: String(needed + 2), lengthMm: "20'" }],
  })
  await receiveLot(lot, owner)
}

function perBar(job: DemoJob): number {
  const cutMm = (job.plan as JobPlan).spec?.cutLengthMm ?? 0
  return cutMm > 0 ? Math.floor(barMm / (cutMm + 4)) : 0
}

const barsNeeded = (job: DemoJob): number =>
  perBar(job) > 0 ? Math.ceil(job.pieces.length / perBar(job)) : 1

/** Cuts every open piece, a bar at a time; the last bar's rest goes back as an offcut. */
async function cutFor(job: DemoJob, units: Units, owner: Actor): Promise<void> {
  const cutMm = (job.plan as JobPlan).spec?.cutLengthMm
  const each = perBar(job)
  if (cutMm === undefined || each === 0) return
  const { materialId, widthMm, heightMm, wallMm } = job.revision
  const open = job.pieces.filter(({ status }) => status === 'open')
  for (let from = 0; from < open.length; from += each) {
    const bar = await db.stockPiece.findFirst({
      where: {
        usedAt: null,
        reservedForJobId: null,
        isOffcut: false,
        lot: { materialId, widthMm, heightMm, wallMm },
      },
      orderBy: { id: 'asc' },
      select: { id: true },
    })
    if (!bar) return
    await reserveStock(stockChoice.parse({ jobId: job.id, stockPieceIds: [bar.id] }), owner)
    await cutPieces(
      cutPiecesForm(units).parse({
        jobId: job.id,
        stockPieceId: bar.id,
        pieceIds: open.slice(from, from + each).map(({ id }) => id),
        cutLengthMm: `${cutMm.toFixed(3)} mm`,
        leftMm: '',
        place: 'Offcut bin',
      }),
      owner,
    )
  }
}

/** Pours for two pieces at a time, as the pot allows, and melts most of it out again. */
async function pourFor(job: DemoJob, isOver: boolean, units: Units, owner: Actor): Promise<void> {
  const plan = job.plan as JobPlan
  const kg = plan.spec?.filler?.massKg
  const pot = plan.setUp?.filler
    ? await db.filler.findUnique({
        where: { shopNumber: plan.setUp.filler.shopNumber },
        select: { id: true },
      })
    : null
  if (kg === undefined || !pot) return
  const held = await db.fillerEntry.aggregate({ where: { fillerId: pot.id }, _sum: { massKg: true } })
  const poured = Math.min(2 * kg, 0.8 * (held._sum.massKg ?? 0))
  const enter = (kind: 'poured' | 'recovered', massKg: number, noteText: string) =>
    enterJobFiller(
      fillerUseForm(units).parse({
        jobId: job.id,
        fillerId: String(pot.id),
        kind,
        massKg: `${massKg.toFixed(3)} kg`,
        noteText,
      }),
      owner,
    )
  await enter('poured', poured, 'Two tubes')
  await enter('recovered', poured * (isOver ? 0.995 : 0.985), 'Weighed after straining')
}

const smallErrorsDeg = [0.3, -0.2, 0.1, 0.4, -0.3, 0.2, 0, -0.1]

async function bendWhole(jobId: number, units: Units, owner: Actor): Promise<void> {
  const job = await db.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      plan: true,
      pieces: { orderBy: { number: 'asc' }, select: { scanCode: true } },
      revision: {
        select: { bends: { orderBy: { position: 'asc' }, select: { position: true, angleDeg: true } } },
      },
    },
  })
  const spec = (job.plan as unknown as JobPlan).spec
  let turn = 0
  for (const { scanCode } of job.pieces) {
    for (const bend of job.revision.bends) {
      const springbackDeg = spec?.bends[bend.position - 1]?.springbackDeg ?? 0
      const errorDeg = smallErrorsDeg[turn++ % smallErrorsDeg.length] ?? 0
      await logTry(typedTry(scanCode, { ...bend, springbackDeg }, errorDeg, units), owner)
    }
  }
}

/** What the clocks said of the first batch: bending went slower than the shop's times, melting out faster. */
const clocked: Readonly<Record<string, number>> = { setUpPress: 1.1, bend: 1.3, meltOut: 0.8, saw: 0.95 }

async function runClocks(jobId: number, owner: Actor): Promise<void> {
  const operations = await db.jobOperation.findMany({
    where: { jobId },
    orderBy: { position: 'asc' },
    select: { id: true, key: true, plannedSetUpMinutes: true, plannedRunMinutesPerPiece: true },
  })
  let at = Date.now() - 22 * dayMs
  for (const operation of operations) {
    const share = clocked[operation.key]
    if (share === undefined) continue
    const minutes = Math.max(
      1,
      Math.round((operation.plannedSetUpMinutes + 3.4 * operation.plannedRunMinutesPerPiece) * share),
    )
    const startKey = randomBytes(16).toString('base64url')
    await startOperation(
      { clientKey: startKey, operationId: operation.id, pieceId: null, at: new Date(at) },
      owner,
    )
    at += minutes * 60_000
    await stopOperation(
      { clientKey: randomBytes(16).toString('base64url'), startKey, at: new Date(at) },
      owner,
    )
  }
}

async function releaseReady(jobId: number, owner: Actor): Promise<void> {
  const job = await db.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      faults: { select: { pieceId: true, number: true, disposition: true } },
      revision: { select: { _count: { select: { bends: true } } } },
      pieces: {
        orderBy: { number: 'asc' },
        select: {
          id: true,
          number: true,
          status: true,
          scanCode: true,
          stockPiece: { select: { id: true } },
          bendRecords: {
            select: {
              bendPosition: true,
              tryNumber: true,
              verdict: true,
              faults: { select: { disposition: true } },
            },
          },
        },
      },
    },
  })
  const ready = readyPieces({ pieces: job.pieces, faults: job.faults, bendCount: job.revision._count.bends })
  // A job that is still being bent keeps its pieces until they can go together.
  if (ready.length === 0 || ready.length < job.pieces.length) return
  await releasePieces(
    { jobId, pieceIds: ready.map(({ id }) => id), noteText: 'Measured with the digital protractor' },
    owner,
  )
}

async function closeAndLearn(jobId: number, owner: Actor): Promise<void> {
  const { version } = await db.job.findUniqueOrThrow({ where: { id: jobId }, select: { version: true } })
  await closeJob(closeForm.parse({ id: String(jobId), version, whyText: '' }), owner)
  const lesson = await db.lesson.findFirst({
    where: { jobId, kind: 'springbackFactor' },
    select: { method: true },
  })
  if (!lesson) return
  await decideLesson(
    { jobId, kind: 'springbackFactor', method: lesson.method, operationKey: '', accept: true },
    owner,
  )
}
