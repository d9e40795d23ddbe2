import type { Disposition } from '@/lib/core/inspection/disposition'
import { type BendState, bendState, type TryVerdict } from '@/lib/records/bend-record/rules'
import { numbersText } from '@/lib/records/job-end/rules'
import { releaseRefusals } from '@/lib/records/piece/rules'

export type JobPiece = {
  id: number
  number: number
  status: 'open' | 'released' | 'scrapped'
  scanCode: string
  stockPiece: { id: number } | null
  bendRecords: readonly {
    bendPosition: number
    tryNumber: number
    verdict: TryVerdict
    faults: readonly { disposition: Disposition | null }[]
  }[]
}

export type JobFault = { pieceId: number | null; number: string; disposition: Disposition | null }

export type JobProgress = {
  id: number
  status: 'open' | 'closed' | 'cancelled'
  bendCount: number
  pieces: readonly JobPiece[]
  faults: readonly (JobFault & { id: number })[]
  /** Bars on the rack that are reserved for it. */
  reservedCount: number
  /** Nobody decided yet about what it taught. */
  openLessons: boolean
}

type Standing<Piece extends JobPiece> = {
  pieces: readonly Piece[]
  faults: readonly JobFault[]
  bendCount: number
}

function refusalsOf(piece: JobPiece, job: Standing<JobPiece>): string[] {
  const faults = job.faults.filter(({ pieceId }) => pieceId === piece.id || pieceId === null)
  return releaseRefusals({ status: piece.status, tries: piece.bendRecords, faults }, job.bendCount)
}

/** Pieces that nothing stands in the way of releasing. */
export function readyPieces<Piece extends JobPiece>(job: Standing<Piece>): Piece[] {
  return job.pieces.filter((piece) => refusalsOf(piece, job).length === 0)
}

/** Each open piece that can't be released yet, and why: '... waits for its measurement'. */
export function hindrances(job: Standing<JobPiece>): { number: number; why: string[] }[] {
  return job.pieces
    .filter(({ status }) => status === 'open')
    .map((piece) => ({ number: piece.number, why: refusalsOf(piece, job) }))
    .filter(({ why }) => why.length > 0)
}

export type NextStep = { text: string; href: string | null; why: string }

type Bend = { piece: JobPiece; position: number; state: BendState }

/** The one thing to do next on a job: what holds the others up comes first. */
export function nextStep(job: JobProgress): NextStep {
  if (job.status === 'cancelled') return { text: 'Cancelled: nothing is to be done', href: null, why: '' }
  if (job.status === 'closed') {
    return job.openLessons
      ? { text: 'Decide what it taught', href: '/lessons', why: 'The job is closed.' }
      : { text: 'Closed: nothing is to be done', href: null, why: '' }
  }
  const fault = job.faults.find(({ disposition }) => disposition === null)
  if (fault) {
    return {
      text: `Decide about ${fault.number}`,
      href: `/faults/${fault.id}`,
      why: 'An open fault holds its piece up.',
    }
  }
  const bends = bendsOf(job)
  const waiting = bends.find(({ state }) => state === 'waiting')
  if (waiting) return atBench('Measure', waiting, 'Its last try waits for a reading.')
  const open = job.pieces.filter(({ status }) => status === 'open')
  const uncut = open.filter((piece) => piece.stockPiece === null && piece.bendRecords.length === 0)
  const next = bends.find(({ state }) => state === 'again' || state === 'cannotSay' || state === 'none')
  const begun = next ? next.piece.bendRecords.length > 0 || next.piece.stockPiece !== null : true
  if (uncut.length > 0 && !begun) {
    const pieces = `${uncut.length === 1 ? 'piece' : 'pieces'} ${numbersText(uncut.map(({ number }) => number))}`
    return job.reservedCount > 0
      ? {
          text: `Note what ${pieces} ${uncut.length === 1 ? 'is' : 'are'} cut from`,
          href: '#stock',
          why: 'It ties them to a heat number.',
        }
      : { text: `Reserve stock for ${pieces}`, href: '#stock', why: 'No tube is kept for them.' }
  }
  if (next) {
    const words = { again: 'Bend again', cannotSay: 'Measure better', none: 'Bend' } as const
    const verb = words[next.state as keyof typeof words]
    const why = next.state === 'cannotSay' ? 'The gauge can’t tell it from the limit.' : ''
    return atBench(verb, next, why)
  }
  const ready = readyPieces(job)
  if (ready.length > 0) {
    const numbers = numbersText(ready.map(({ number }) => number))
    return {
      text: `Release ${ready.length === 1 ? 'piece' : 'pieces'} ${numbers}`,
      href: '#pieces',
      why: 'Every bend has passed or has a concession.',
    }
  }
  return { text: 'Close the job', href: '#end', why: 'Every piece is released or scrapped.' }
}

function bendsOf(job: JobProgress): Bend[] {
  return job.pieces
    .filter(({ status }) => status === 'open')
    .flatMap((piece) =>
      Array.from({ length: job.bendCount }, (_, index) => ({
        piece,
        position: index + 1,
        state: bendState(piece.bendRecords, index + 1),
      })),
    )
}

function atBench(verb: string, { piece, position }: Bend, why: string): NextStep {
  return { text: `${verb}: piece ${piece.number}, bend ${position}`, href: `/bench/${piece.scanCode}`, why }
}

export type MeasuredTry = {
  pieceNumber: number
  bendPosition: number
  tryNumber: number
  at: Date
  errorDeg: number
}

/** Every measured try as its error from the wanted angle, in the order made. */
export function angleErrors(
  pieces: readonly {
    number: number
    bendRecords: readonly {
      bendPosition: number
      tryNumber: number
      at: Date
      angleFinalDeg: number | null
    }[]
  }[],
  wantedDeg: readonly number[],
): MeasuredTry[] {
  return pieces
    .flatMap((piece) =>
      piece.bendRecords.flatMap((record): MeasuredTry[] => {
        const wanted = wantedDeg[record.bendPosition - 1]
        if (record.angleFinalDeg === null || wanted === undefined) return []
        const { bendPosition, tryNumber, at } = record
        return [
          { pieceNumber: piece.number, bendPosition, tryNumber, at, errorDeg: record.angleFinalDeg - wanted },
        ]
      }),
    )
    .sort((one, other) => +one.at - +other.at)
}
