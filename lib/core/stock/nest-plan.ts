import { type BarCutting, type CutPattern, lengthSlackMm, patternOf } from '@/lib/core/stock/cut-patterns'

/** Pieces of one length to cut. */
export interface CutPiece {
  readonly key: string
  readonly lengthMm: number
  readonly pieceCount: number
}

/** One bar or offcut on the rack; its cost is what using it costs the job, 0 for an offcut given free. */
export interface RackBar {
  readonly key: string
  readonly lengthMm: number
  readonly kind: 'bar' | 'offcut'
  readonly costCents: number
}

/** A length that can be bought; without a count as many as wanted. */
export interface BuyableLength {
  readonly key: string
  readonly lengthMm: number
  readonly priceCents: number
  readonly availableCount?: number
}

export interface NestInput {
  readonly pieces: readonly CutPiece[]
  readonly rack: readonly RackBar[]
  readonly buyable: readonly BuyableLength[]
  readonly kerfMm: number
  /** Cropped from the first end of each bar, its kerf counted in. */
  readonly endTrimMm: number
  /** Whether the last piece must be cut off the bar's far end too. */
  readonly trimFarEnd: boolean
  /** A leftover of this length or more goes back to the rack. */
  readonly keepOffcutFromMm: number
  /** What a metre of such an offcut is worth; 0 keeps it at no value. */
  readonly offcutValueCentsPerM: number
}

/** Bars that are alike. `barCount` null: as many as wanted. */
export interface BarKind {
  readonly source: 'rack' | 'buy'
  readonly kind: 'bar' | 'offcut'
  readonly keys: readonly string[]
  readonly costCents: number
  readonly barCount: number | null
  readonly cutting: BarCutting
}

export interface ChosenPattern {
  readonly kind: BarKind
  readonly pattern: CutPattern
  readonly barCount: number
}

/** One bar to cut. A rack bar has its own key; a bought one that of its length. */
export interface PlannedBar {
  readonly barKey: string
  readonly source: 'rack' | 'buy'
  readonly kind: 'bar' | 'offcut'
  readonly lengthMm: number
  readonly costCents: number
  readonly cuts: readonly {
    readonly pieceKey: string
    readonly lengthMm: number
    readonly pieceCount: number
  }[]
  readonly leftoverMm: number
  readonly leftover: 'back-to-rack' | 'scrap' | 'none'
  readonly leftoverValueCents: number
}

export interface NestProof {
  readonly method: 'exact' | 'search-stopped' | 'first-fit-decreasing'
  readonly proven: boolean
  /** No plan costs less than this. */
  readonly lowerBoundCents: number
  readonly patternCount: number
  readonly text: string
}

export interface NestPlan {
  readonly bars: readonly PlannedBar[]
  readonly toBuy: readonly {
    readonly key: string
    readonly lengthMm: number
    readonly barCount: number
    readonly costCents: number
  }[]
  readonly returned: readonly {
    readonly barKey: string
    readonly lengthMm: number
    readonly valueCents: number
  }[]
  readonly boughtCents: number
  readonly rackCents: number
  readonly returnedCents: number
  /** Bought and rack, less what goes back. */
  readonly netCents: number
  readonly usedLengthMm: number
  readonly piecesLengthMm: number
  /** Bars used less pieces less what goes back: kerf, crops and scrap ends. */
  readonly wasteMm: number
  readonly wasteFraction: number
  readonly proof: NestProof
}

export type NestResult =
  | { readonly found: true; readonly plan: NestPlan }
  | {
      readonly found: false
      readonly because: 'piece-longer-than-any-bar' | 'not-enough-tube'
      readonly pieceKey: string | null
    }

/**
 * The plan in bars and cuts from chosen patterns, pieces beyond those asked for left uncut.
 *   waste = bars used - pieces - what goes back;  waste fraction = waste / bars used
 * Valid: patterns that cover the demand; length is conserved.
 */
export function buildPlan(
  input: NestInput,
  chosen: readonly ChosenPattern[],
  proof: Omit<NestProof, 'text'>,
): NestPlan {
  const pieces = input.pieces.filter(({ pieceCount }) => pieceCount > 0)
  const left = pieces.map(({ pieceCount }) => pieceCount)
  const taken = new Map<BarKind, number>()
  const bars: PlannedBar[] = []
  for (const { kind, pattern, barCount } of chosen) {
    for (let i = 0; i < barCount; i += 1) {
      const counts = pattern.counts.map((count, piece) => Math.min(count, left[piece] ?? 0))
      if (counts.every((count) => count === 0)) continue
      counts.forEach((count, piece) => {
        left[piece] = (left[piece] ?? 0) - count
      })
      const index = taken.get(kind) ?? 0
      taken.set(kind, index + 1)
      bars.push(plannedBar(input, pieces, kind, kind.keys[kind.source === 'rack' ? index : 0] ?? '', counts))
    }
  }
  return sumPlan(input, bars, proof)
}

/**
 * What a leftover is worth back on the rack: nothing below the length kept, never more than the bar cost.
 *   min(bar cost, length * value of a metre)
 * Valid: a bar given free leaves a leftover given free, so that cutting a bar never earns money.
 */
export function leftoverValueCents(input: NestInput, barCents: number, leftoverMm: number): number {
  if (leftoverMm < input.keepOffcutFromMm - lengthSlackMm) return 0
  return Math.min(barCents, Math.round((leftoverMm * input.offcutValueCentsPerM) / 1000))
}

function plannedBar(
  input: NestInput,
  pieces: readonly CutPiece[],
  kind: BarKind,
  barKey: string,
  counts: readonly number[],
): PlannedBar {
  const lengthsMm = pieces.map(({ lengthMm }) => lengthMm)
  const leftoverMm = patternOf(counts, lengthsMm, kind.cutting)?.leftoverMm ?? 0
  const kept = leftoverMm > lengthSlackMm && leftoverMm >= input.keepOffcutFromMm - lengthSlackMm
  return {
    barKey,
    source: kind.source,
    kind: kind.kind,
    lengthMm: kind.cutting.barLengthMm,
    costCents: kind.costCents,
    cuts: pieces.flatMap(({ key, lengthMm }, index) => {
      const pieceCount = counts[index] ?? 0
      return pieceCount > 0 ? [{ pieceKey: key, lengthMm, pieceCount }] : []
    }),
    leftoverMm,
    leftover: kept ? 'back-to-rack' : leftoverMm > lengthSlackMm ? 'scrap' : 'none',
    leftoverValueCents: leftoverValueCents(input, kind.costCents, leftoverMm),
  }
}

function sumPlan(input: NestInput, bars: readonly PlannedBar[], proof: Omit<NestProof, 'text'>): NestPlan {
  const sum = (of: (bar: PlannedBar) => number): number => bars.reduce((total, bar) => total + of(bar), 0)
  const boughtCents = sum((bar) => (bar.source === 'buy' ? bar.costCents : 0))
  const rackCents = sum((bar) => (bar.source === 'rack' ? bar.costCents : 0))
  const returned = bars.filter(({ leftover }) => leftover === 'back-to-rack')
  const returnedCents = sum(({ leftoverValueCents }) => leftoverValueCents)
  const returnedMm = returned.reduce((total, { leftoverMm }) => total + leftoverMm, 0)
  const usedLengthMm = sum(({ lengthMm }) => lengthMm)
  const piecesLengthMm = sum(({ cuts }) =>
    cuts.reduce((total, cut) => total + cut.lengthMm * cut.pieceCount, 0),
  )
  const wasteMm = usedLengthMm - piecesLengthMm - returnedMm
  const netCents = boughtCents + rackCents - returnedCents
  return {
    bars,
    toBuy: input.buyable.flatMap(({ key, lengthMm, priceCents }) => {
      const barCount = bars.filter((bar) => bar.source === 'buy' && bar.barKey === key).length
      return barCount > 0 ? [{ key, lengthMm, barCount, costCents: barCount * priceCents }] : []
    }),
    returned: returned.map(({ barKey, leftoverMm, leftoverValueCents }) => ({
      barKey,
      lengthMm: leftoverMm,
      valueCents: leftoverValueCents,
    })),
    boughtCents,
    rackCents,
    returnedCents,
    netCents,
    usedLengthMm,
    piecesLengthMm,
    wasteMm,
    wasteFraction: usedLengthMm > 0 ? wasteMm / usedLengthMm : 0,
    proof: { ...proof, text: proofText(proof) },
  }
}

function proofText(proof: Omit<NestProof, 'text'>): string {
  switch (proof.method) {
    case 'exact':
      return `proven: no cutting plan out of ${proof.patternCount} patterns costs less`
    case 'search-stopped':
      return `the search was stopped: the best plan found, not proven; none costs less than ${proof.lowerBoundCents} cents`
    case 'first-fit-decreasing':
      return 'too many ways of cutting to search them all: longest pieces first, each in the first bar with room; not proven'
  }
}
