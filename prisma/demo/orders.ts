import { randomBytes } from 'node:crypto'
import { tryForm } from '@/lib/records/bend-record/schema'
import { logTry } from '@/lib/records/bend-record/write'
import { quoteEstimate } from '@/lib/records/estimate/write'
import { decideForm, faultForm } from '@/lib/records/fault/schema'
import { decideFault, openFaultByHand } from '@/lib/records/fault/write'
import type { JobPlan } from '@/lib/records/job/rules'
import { quoteForm } from '@/lib/records/quote/schema'
import {
  createQuote,
  markQuoteLost,
  openAcceptedLine,
  saveQuote,
  sendQuote,
  withdrawQuote,
} from '@/lib/records/quote/write'
import { acceptQuote, declineQuote } from '@/lib/records/quote-answer/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import type { DemoPart } from './parts-list'

export type SavedPart = DemoPart & { customerId: number; revisionId: number }
type Units = Parameters<typeof quoteForm>[0]

const dayMs = 86_400_000
const isoDay = (daysAhead: number) => new Date(Date.now() + daysAhead * dayMs).toISOString().slice(0, 10)

type Outcome = 'draft' | 'sent' | 'accepted' | 'declined' | 'lost' | 'withdrawn' | 'lapsed'

/** Which parts are quoted together, at what price each, and what came of it. */
const demoQuotes: readonly { parts: readonly number[]; price: number; outcome: Outcome; due: number }[] = [
  { parts: [0, 1], price: 21_400, outcome: 'accepted', due: 9 },
  { parts: [6, 7], price: 6_800, outcome: 'accepted', due: 3 },
  { parts: [9], price: 18_900, outcome: 'accepted', due: -2 },
  { parts: [12], price: 4_450, outcome: 'accepted', due: 16 },
  { parts: [15, 16], price: 19_700, outcome: 'sent', due: 0 },
  { parts: [3, 4], price: 13_200, outcome: 'sent', due: 0 },
  { parts: [17], price: 16_100, outcome: 'declined', due: 0 },
  { parts: [19], price: 5_150, outcome: 'lost', due: 0 },
  { parts: [22], price: 24_800, outcome: 'withdrawn', due: 0 },
  { parts: [10], price: 11_300, outcome: 'lapsed', due: 0 },
  { parts: [20, 21], price: 15_900, outcome: 'draft', due: 0 },
]

/** Quotes in each state, jobs mid-way, tries that passed, failed and were redone. */
export async function loadDemoOrders(
  parts: readonly SavedPart[],
  /** The estimate of a part, by the part's place in the list. */
  estimates: ReadonlyMap<number, number>,
  units: Units,
  owner: Actor,
): Promise<void> {
  for (const quote of demoQuotes) await loadQuote(parts, estimates, quote, units, owner)
  const jobs = await db.job.findMany({
    orderBy: { id: 'asc' },
    select: {
      id: true,
      plan: true,
      pieces: { orderBy: { number: 'asc' }, select: { scanCode: true } },
      revision: {
        select: { bends: { orderBy: { position: 'asc' }, select: { position: true, angleDeg: true } } },
      },
    },
  })
  for (const [index, job] of jobs.entries()) await loadTries(job, jobProgress[index] ?? 0, units, owner)
  const last = jobs.at(-1)
  if (last) {
    await openFaultByHand(
      faultForm.parse({
        jobId: String(last.id),
        pieceId: '',
        bendPosition: '',
        description: 'Scratch along the outside of two tubes, found at the saw: can it be dressed out?',
      }),
      owner,
    )
  }
}

/** Share of the pieces that have been bent, by job. */
const jobProgress = [0.7, 0.35, 1, 0.5, 0, 0.2]

async function loadQuote(
  parts: readonly SavedPart[],
  estimates: ReadonlyMap<number, number>,
  plan: (typeof demoQuotes)[number],
  units: Units,
  owner: Actor,
) {
  const chosen = plan.parts.flatMap((index) => parts[index] ?? [])
  const customerId = chosen[0]?.customerId ?? 0
  const { id } = await createQuote(
    { customerId, revisionIds: chosen.map(({ revisionId }) => revisionId) },
    owner,
  )
  for (const place of plan.parts) {
    const estimateId = estimates.get(place)
    if (estimateId === undefined) continue
    await quoteEstimate({ estimateId, quoteId: id, pricing: { by: 'margin', ppm: 300_000 } }, owner)
  }
  const { version, taxName, taxPpm } = await db.quote.findUniqueOrThrow({
    where: { id },
    select: { version: true, taxName: true, taxPpm: true },
  })
  const lines = await db.quoteLine.findMany({
    where: { quoteId: id },
    orderBy: { position: 'asc' },
    select: {
      id: true,
      description: true,
      leadTimeDays: true,
      estimateId: true,
      breaks: { orderBy: { quantity: 'asc' }, select: { quantity: true, unitCents: true } },
    },
  })
  const money = (cents: number) => (cents / 100).toFixed(2)
  const typed = {
    id: String(id),
    version,
    validUntil: isoDay(30),
    termsText: 'Net 30 days. Prices hold for the quantities named. Material certificates on request.',
    noteText: '',
    taxName,
    taxPpm: String(taxPpm / 10_000),
    lines: lines.map((line, index) => {
      const quantity = chosen[index]?.quantity ?? 1
      return {
        id: String(line.id),
        description: line.description,
        leadTimeDays: line.estimateId === null ? '15' : String(line.leadTimeDays),
        breaks:
          line.estimateId !== null
            ? line.breaks.map(({ quantity: from, unitCents }) => ({
                quantity: String(from),
                unitPrice: money(unitCents),
              }))
            : [
                { quantity: String(quantity), unitPrice: money(plan.price) },
                { quantity: String(quantity * 3), unitPrice: money(Math.round(plan.price * 0.86)) },
              ],
      }
    }),
  }
  const saved = await saveQuote(quoteForm(units).parse(typed), owner)
  if (plan.outcome === 'draft') return
  const sent = await sendQuote({ id, version: saved.version }, owner)
  const token = sent.linkPath.slice('/q/'.length)
  const name = 'The customer'
  if (plan.outcome === 'lapsed') {
    // Nobody can send what has lapsed already: the days since are all that is made up here.
    await db.quote.update({ where: { id }, data: { validUntil: new Date(`${isoDay(-9)}T00:00:00Z`) } })
  }
  if (plan.outcome === 'withdrawn') await withdrawQuote({ id, version: sent.version }, owner)
  if (plan.outcome === 'lost')
    await markQuoteLost({ id, version: sent.version, lostReason: 'Went for a bolted frame instead' }, owner)
  if (plan.outcome === 'declined')
    await declineQuote({ token, name, note: 'Too late for the refit: needed in eight days' })
  if (plan.outcome !== 'accepted') return
  const choices = lines.map((line, index) => ({ lineId: line.id, quantity: chosen[index]?.quantity ?? 1 }))
  await acceptQuote({ token, name, note: 'Please go ahead', choices })
  for (const line of lines) {
    await openAcceptedLine({ quoteLineId: line.id, dueOn: new Date(`${isoDay(plan.due)}T00:00:00Z`) }, owner)
  }
}

type DemoJob = {
  id: number
  plan: unknown
  pieces: readonly { scanCode: string }[]
  revision: { bends: readonly { position: number; angleDeg: number }[] }
}

/** Errors in degrees of a bench that has its good and bad days; every seventh try is off by more than the tolerance. */
const errorsDeg = [0.2, -0.3, 0.1, 0.4, -0.1, -1.9, 0.3, 0.0, 0.2, -0.2]

async function loadTries(job: DemoJob, share: number, units: Units, owner: Actor): Promise<void> {
  const bent = job.pieces.slice(0, Math.floor(job.pieces.length * share))
  const { spec } = job.plan as JobPlan
  let turn = job.id
  for (const [place, { scanCode }] of bent.entries()) {
    for (const wanted of job.revision.bends) {
      const springbackDeg = spec?.bends[wanted.position - 1]?.springbackDeg ?? 0
      const bend = { ...wanted, springbackDeg }
      const isLast = share < 1 && place === bent.length - 1 && wanted === job.revision.bends.at(-1)
      if (isLast) {
        await logTry({ ...typedTry(scanCode, bend, 0, units), angleFinalDeg: null }, owner)
        continue
      }
      const errorDeg = errorsDeg[turn++ % errorsDeg.length] ?? 0
      await logTry(typedTry(scanCode, bend, errorDeg, units), owner)
      if (Math.abs(errorDeg) < 1) continue
      await decideOpenFault(job.id, owner)
      await logTry(typedTry(scanCode, bend, 0.1, units), owner)
    }
  }
}

/** What this shop's tubes spring back beside the model's, and how much bends made alike differ. */
const shopFactor = (errorDeg: number) => 1.06 - errorDeg / 20

/** A try as the bench types it; the angle it was loaded to is what was left plus what sprang back. */
export function typedTry(
  scanCode: string,
  bend: { position: number; angleDeg: number; springbackDeg: number },
  errorDeg: number,
  units: Units,
) {
  const loadedDeg = bend.angleDeg + errorDeg + bend.springbackDeg * shopFactor(errorDeg)
  return tryForm(units).parse({
    kind: 'try',
    clientKey: randomBytes(16).toString('base64url'),
    scanCode,
    bendPosition: bend.position,
    targetAtPressDeg: '',
    loadedAngleDeg: bend.springbackDeg > 0 ? loadedDeg.toFixed(1) : '',
    angleAtPressDeg: (bend.angleDeg + errorDeg + 0.2).toFixed(1),
    angleFinalDeg: (bend.angleDeg + errorDeg).toFixed(1),
    radiusMm: '',
    widthOutsideMm: '',
    widthMiddleMm: '',
    widthInsideMm: '',
    heightMm: '',
    wallOutsideMm: '',
    wallInsideMm: '',
    look: 'clean',
    dyePenetrant: 'clear',
    gaugeText: 'Digital protractor DP-2',
    gaugeUncertaintyDeg: '0.2',
    noteText: '',
  })
}

async function decideOpenFault(jobId: number, owner: Actor): Promise<void> {
  const fault = await db.nonconformance.findFirst({
    where: { jobId, disposition: null },
    orderBy: { id: 'desc' },
    select: { id: true, version: true },
  })
  if (!fault) return
  await decideFault(
    decideForm.parse({
      id: String(fault.id),
      version: fault.version,
      disposition: 'rework',
      whyText: 'Short of the angle: press again by the difference and measure once more',
      stockPieceId: '',
    }),
    owner,
  )
}
