import 'server-only'
import {
  type ActualFacts,
  type ActualReport,
  actualAgainst,
  estimateOfQuantity,
} from '@/lib/records/actual/rules'
import { type EstimateResults, keptInputs } from '@/lib/records/estimate/rules'
import { db } from '@/lib/server/db'

/** A job against the estimate it was quoted from; null where no estimate stands behind it. */
export async function readActual(jobId: number): Promise<ActualReport | null> {
  const job = await db.job.findUnique({
    where: { id: jobId },
    select: {
      quantity: true,
      status: true,
      priceCents: true,
      revision: { select: { bends: { select: { id: true } } } },
      quoteLine: {
        select: { estimate: { select: { id: true, number: true, inputs: true, results: true } } },
      },
      operations: {
        orderBy: { position: 'asc' },
        select: {
          key: true,
          name: true,
          logs: { select: { pieceId: true, startedAt: true, endedAt: true } },
        },
      },
      pieces: {
        select: {
          status: true,
          // Rows and not their counts: a count of a relation is made over its whole table.
          bendRecords: { select: { id: true } },
          operationLogs: { select: { id: true } },
          stockPiece: {
            select: {
              id: true,
              lengthMm: true,
              cuts: { select: { lengthMm: true } },
              lot: { select: { number: true, priceCentsPerM: true } },
            },
          },
        },
      },
      fillerEntries: { select: { kind: true, massKg: true } },
    },
  })
  const estimate = job?.quoteLine?.estimate
  if (!job || !estimate) return null
  const inputs = keptInputs(estimate.inputs)
  const made = estimateOfQuantity(inputs, estimate.results as unknown as EstimateResults, job.quantity)
  if (!made) return null
  const started = job.pieces.filter(
    ({ status, bendRecords, operationLogs }) =>
      status !== 'open' || bendRecords.length + operationLogs.length > 0,
  )
  const bars = new Map(
    started.flatMap(({ stockPiece }) => (stockPiece ? [[stockPiece.id, stockPiece] as const] : [])),
  )
  const massKg = (kind: 'poured' | 'recovered' | 'lost') =>
    Math.abs(job.fillerEntries.reduce((sum, entry) => sum + (entry.kind === kind ? entry.massKg : 0), 0))
  const facts: ActualFacts = {
    quantity: job.quantity,
    goodCount: job.pieces.filter(({ status }) => status === 'released').length,
    startedCount: started.length,
    bendsOnDrawing: job.revision.bends.length,
    tryCount: job.pieces.reduce((sum, { bendRecords }) => sum + bendRecords.length, 0),
    operations: job.operations,
    bars: [...bars.values()].map(({ lengthMm, cuts, lot }) => ({
      number: lot.number,
      lengthMm,
      backMm: Math.min(
        lengthMm,
        cuts.reduce((sum, cut) => sum + cut.lengthMm, 0),
      ),
      centsPerM: lot.priceCentsPerM,
    })),
    soldForCents: job.status === 'closed' ? job.priceCents : null,
    filler: { pouredKg: massKg('poured'), recoveredKg: massKg('recovered'), lostKg: massKg('lost') },
  }
  const { currency } = inputs.ground.shop
  // Those the estimate was made with: the shop's of then, and what was set for this one.
  const { rates } = made.input
  return actualAgainst(
    { id: estimate.id, number: estimate.number, rates, currency, estimate: made.estimate },
    facts,
  )
}
