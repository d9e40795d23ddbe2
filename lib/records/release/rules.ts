import type { Disposition } from '@/lib/core/inspection/disposition'
import {
  type BendLook,
  type BendState,
  bendState,
  type PenetrantResult,
  type TryVerdict,
} from '@/lib/records/bend-record/rules'
import type { JobPlan } from '@/lib/records/job/rules'

export type SnapshotTry = {
  bendPosition: number
  tryNumber: number
  verdict: TryVerdict
  angleFinalDeg: number | null
  radiusMm: number | null
  gaugeText: string
  gaugeUncertaintyDeg: number
  at: string
  by: { name: string }
  faults: { number: string; disposition: Disposition | null }[]
}

/** Every piece and bend as it stood when it was released. */
export type ReleaseSnapshot = {
  pieces: {
    number: number
    stockPiece: { lot: { number: string; heatNumber: string } } | null
    bendRecords: SnapshotTry[]
  }[]
}

export type ReleasePapers = {
  id: number
  number: string
  at: Date
  statementText: string
  by: { name: string }
  snapshot: ReleaseSnapshot
  job: {
    id: number
    number: string
    quantity: number
    plan: JobPlan
    customer: { name: string; addressText: string }
    quoteLine: { quote: { number: string } } | null
    revision: {
      letter: string
      materialId: string
      part: { id: number; number: string; name: string; customerRef: string }
    }
    releases: { id: number; number: string; pieces: readonly unknown[] }[]
  }
  pieces: {
    number: number
    bendRecords: {
      bendPosition: number
      tryNumber: number
      look: BendLook | null
      dyePenetrant: PenetrantResult
    }[]
    faults: {
      number: string
      description: string
      whyText: string
      decidedAt: Date | null
      decidedBy: { name: string } | null
    }[]
  }[]
}

export type ReleasedBend = {
  piece: number
  bend: number
  /** The try that counts: the last one before the release. */
  last: SnapshotTry
  state: BendState
  look: BendLook | null
  dyePenetrant: PenetrantResult
}

/** Each bend of each released piece with the try that it was released on. */
export function releasedBends(release: Pick<ReleasePapers, 'snapshot' | 'pieces'>): ReleasedBend[] {
  return release.snapshot.pieces.flatMap((piece) => {
    const kept = release.pieces.find(({ number }) => number === piece.number)
    const positions = [...new Set(piece.bendRecords.map(({ bendPosition }) => bendPosition))].sort(
      (one, other) => one - other,
    )
    return positions.flatMap((bend): ReleasedBend[] => {
      const last = piece.bendRecords
        .filter(({ bendPosition }) => bendPosition === bend)
        .reduce<SnapshotTry | null>(
          (most, one) => (most && most.tryNumber > one.tryNumber ? most : one),
          null,
        )
      if (!last) return []
      const record = kept?.bendRecords.find(
        (one) => one.bendPosition === bend && one.tryNumber === last.tryNumber,
      )
      return [
        {
          piece: piece.number,
          bend,
          last,
          state: bendState(piece.bendRecords, bend),
          look: record?.look ?? null,
          dyePenetrant: record?.dyePenetrant ?? 'notDone',
        },
      ]
    })
  })
}

/** What of an order is still owed once this release and all before it are counted. */
export function owedPieces(release: Pick<ReleasePapers, 'id' | 'job'>): number {
  const released = release.job.releases
    .filter(({ id }) => id <= release.id)
    .reduce((sum, { pieces }) => sum + pieces.length, 0)
  return Math.max(0, release.job.quantity - released)
}
