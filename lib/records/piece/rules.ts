import type { Disposition } from '@/lib/core/inspection/disposition'
import { type BendState, bendState, type TryOfBend } from '@/lib/records/bend-record/rules'
import { type LotSize, sameSizeMm } from '@/lib/records/stock/rules'

export type PieceStanding = {
  status: 'open' | 'released' | 'scrapped'
  tries: readonly TryOfBend[]
  /** Faults of the piece, and those of the whole job. */
  faults: readonly { number: string; disposition: Disposition | null }[]
}

/** Where each bend of a piece stands, in order. */
export function bendStates(piece: Pick<PieceStanding, 'tries'>, bendCount: number): BendState[] {
  return Array.from({ length: bendCount }, (_, index) => bendState(piece.tries, index + 1))
}

/** Why a piece can't be released; empty when it can. */
export function releaseRefusals(piece: PieceStanding, bendCount: number): string[] {
  if (piece.status !== 'open') return [`is ${piece.status} already`]
  const open = piece.faults.filter(({ disposition }) => disposition === null)
  const words: Readonly<Record<BendState, string | null>> = {
    pass: null,
    conceded: null,
    none: 'has no try yet',
    waiting: 'waits for its measurement',
    fail: 'failed, or has an open fault',
    cannotSay:
      'can’t be told from the limit by this gauge: measure with a better one, or record a concession',
    again: 'is to be done again',
  }
  return [
    ...open.map(({ number }) => `has the open fault ${number}`),
    ...bendStates(piece, bendCount).flatMap((state, index) => {
      const word = words[state]
      return word === null ? [] : [`bend ${index + 1} ${word}`]
    }),
  ]
}

type Tube = LotSize & { materialId: string }

const alloyOf = (materialId: string): string => materialId.split('-')[0] ?? materialId

/** Why a tube can't be what a part is made of; null where it can. The temper may differ: some ways buy a softer one. */
export function tubeRefusal(bar: Tube, wanted: Tube): string | null {
  if (alloyOf(bar.materialId) !== alloyOf(wanted.materialId)) {
    return `is ${bar.materialId}; the part is ${wanted.materialId}.`
  }
  const differs = (['widthMm', 'heightMm', 'wallMm'] as const).some(
    (key) => Math.abs(bar[key] - wanted[key]) > sameSizeMm,
  )
  return differs || bar.shape !== wanted.shape ? 'is another size than the part.' : null
}

export type PieceName = { scanCode: string } | { jobNumber: string; pieceNumber: number | null }

/**
 * What somebody types or scans to name a piece: the address in its code, the code itself, or as it stands on a label,
 * 'J-0001/3'; a job alone names its pieces. Null for anything else.
 */
export function readPieceName(text: string): PieceName | null {
  const typed = text.trim()
  const scanned = /(?:^|\/bench\/)([\w-]{16,64})(?:[?#].*)?$/.exec(typed)
  if (scanned?.[1]) return { scanCode: scanned[1] }
  const named = /^(?:J-?)?0*(\d{1,7})(?:\s*(?:\/|,|\s|piece)+\s*(\d{1,4}))?$/i.exec(typed)
  if (!named?.[1]) return null
  return {
    jobNumber: `J-${named[1].padStart(4, '0')}`,
    pieceNumber: named[2] === undefined ? null : Number(named[2]),
  }
}
