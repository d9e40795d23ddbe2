import { type BendState, bendState, type TryOfBend } from '@/lib/records/bend-record/rules'

type BenchPiece = {
  number: number
  scanCode: string
  job: { number: string; revision: { part: { name: string }; bends: readonly unknown[] } }
  bendRecords: readonly TryOfBend[]
}

type At = { jobNumber: string; partName: string; pieceNumber: number; bend: number; scanCode: string }

export type ToBend = {
  jobNumber: string
  partName: string
  /** Of the pieces that are still open. */
  doneCount: number
  bendCount: number
  next: At | null
}

const isDone = (state: BendState): boolean => state === 'pass' || state === 'conceded'
/** What the bench can go on with; a failed bend waits for the office, a waiting one for its reading. */
const canGoOn = (state: BendState): boolean => state === 'none' || state === 'again' || state === 'cannotSay'

/** Bends whose last try waits for a reading, and for each job how far its open pieces are and which bend is next. */
export function benchWaits(pieces: readonly BenchPiece[]): { toMeasure: At[]; toBend: ToBend[] } {
  const toMeasure: At[] = []
  const jobs = new Map<string, ToBend>()
  for (const piece of pieces) {
    const { number: jobNumber, revision } = piece.job
    const job: ToBend = jobs.get(jobNumber) ?? {
      jobNumber,
      partName: revision.part.name,
      doneCount: 0,
      bendCount: 0,
      next: null,
    }
    jobs.set(jobNumber, job)
    for (let bend = 1; bend <= revision.bends.length; bend += 1) {
      const state = bendState(piece.bendRecords, bend)
      const at = {
        jobNumber,
        partName: revision.part.name,
        pieceNumber: piece.number,
        bend,
        scanCode: piece.scanCode,
      }
      job.bendCount += 1
      if (isDone(state)) job.doneCount += 1
      if (state === 'waiting') toMeasure.push(at)
      if (canGoOn(state)) job.next ??= at
    }
  }
  return { toMeasure, toBend: [...jobs.values()].filter(({ doneCount, bendCount }) => doneCount < bendCount) }
}
