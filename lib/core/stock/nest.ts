import { remembered } from '@/lib/core/remembered'
import {
  type BarCutting,
  type CutPattern,
  piecesPerBar,
  roomMm,
  usefulPatterns,
} from '@/lib/core/stock/cut-patterns'
import { firstFitDecreasing } from '@/lib/core/stock/first-fit'
import type {
  BarKind,
  ChosenPattern,
  CutPiece,
  NestInput,
  NestPlan,
  NestResult,
} from '@/lib/core/stock/nest-plan'
import { buildPlan, leftoverValueCents } from '@/lib/core/stock/nest-plan'
import { type SolverColumn, solveWholeNumbers } from '@/lib/core/stock/solver'
import { preferShorterBars, withoutSurplus } from '@/lib/core/stock/spare-bars'

/** Above this many cutting patterns the exact search is left and first-fit-decreasing answers, named as such. */
export const mostPatterns = 20_000

/**
 * The cheapest way to cut pieces out of bars on the rack and bars to buy, with its proof.
 *   min sum (bar cost - value of the offcut it leaves) over cutting patterns, each piece cut, no rack bar used twice
 * Source: P. C. Gilmore & R. E. Gomory, Operations Research 9 (1961) 849, all patterns listed, whole numbers by branch and cut.
 * Valid: lengths above zero; past 20 000 patterns, or a search that is stopped, the answer says it is not proven.
 * The latest plans are remembered: a search takes tenths of a second, and screens of one estimate ask it again and again.
 */
export const nestPieces: (input: NestInput) => Promise<NestResult> = remembered(nested, 64)

async function nested(input: NestInput): Promise<NestResult> {
  requireNest(input)
  const { pieces, kinds } = nestProblem(input)
  if (pieces.length === 0) return { found: true, plan: emptyPlan() }
  const tooLong = pieces.find((piece) =>
    kinds.every(({ cutting }) => piecesPerBar(piece.lengthMm, cutting) < 1),
  )
  if (tooLong) return { found: false, because: 'piece-longer-than-any-bar', pieceKey: tooLong.key }

  const heuristic = firstFitDecreasing(pieces, kinds)
  const exact = await exactChoice(input, kinds, heuristic)
  if (exact === 'no-solution') return { found: false, because: 'not-enough-tube', pieceKey: null }
  if (exact === 'too-large' || exact === 'stopped') {
    if (!heuristic) return { found: false, because: 'not-enough-tube', pieceKey: null }
    const lowerBoundCents = lengthBoundCents(pieces, kinds, input.offcutValueCentsPerM)
    return {
      found: true,
      plan: buildPlan(input, heuristic, {
        method: 'first-fit-decreasing',
        proven: false,
        lowerBoundCents,
        patternCount: 0,
      }),
    }
  }
  const method = exact.proven ? 'exact' : 'search-stopped'
  return { found: true, plan: buildPlan(input, exact.chosen, { ...exact, method }) }
}

/** The pieces wanted and the bars there are, alike ones taken together: what both the exact and the quick method start from. */
export function nestProblem(input: NestInput): { pieces: CutPiece[]; kinds: BarKind[] } {
  return { pieces: input.pieces.filter(({ pieceCount }) => pieceCount > 0), kinds: barKinds(input) }
}

interface ExactChoice {
  readonly chosen: readonly ChosenPattern[]
  readonly proven: boolean
  readonly lowerBoundCents: number
  readonly patternCount: number
}

async function exactChoice(
  input: NestInput,
  kinds: readonly BarKind[],
  heuristic: readonly ChosenPattern[] | null,
): Promise<ExactChoice | 'too-large' | 'stopped' | 'no-solution'> {
  const pieces = input.pieces.filter(({ pieceCount }) => pieceCount > 0)
  const demand = {
    lengthsMm: pieces.map(({ lengthMm }) => lengthMm),
    pieceCounts: pieces.map(({ pieceCount }) => pieceCount),
  }
  const keep = { fromMm: input.offcutValueCentsPerM > 0 ? input.keepOffcutFromMm : Number.POSITIVE_INFINITY }
  const listed: { kind: BarKind; pattern: CutPattern }[] = []
  for (const kind of kinds) {
    const patterns = usefulPatterns(demand, kind.cutting, keep, mostPatterns - listed.length)
    if (!patterns) return 'too-large'
    listed.push(...patterns.map((pattern) => ({ kind, pattern })))
  }
  const totalPieces = demand.pieceCounts.reduce((sum, count) => sum + count, 0)
  const limited = kinds.filter(({ barCount }) => barCount !== null)
  const columns = listed.map(({ kind, pattern }): SolverColumn => {
    const entries = pattern.counts.flatMap((value, row) => (value > 0 ? [{ row, value }] : []))
    const stockRow = limited.indexOf(kind)
    if (stockRow >= 0) entries.push({ row: pieces.length + stockRow, value: 1 })
    return { cost: netCents(kind, pattern, input), most: kind.barCount ?? totalPieces, entries }
  })
  const rows = [
    ...demand.pieceCounts.map((least) => ({ least, most: Number.POSITIVE_INFINITY })),
    ...limited.map(({ barCount }) => ({ least: 0, most: barCount ?? totalPieces })),
  ]
  const { columns: scaledColumns, unitCents } = inCommonUnit(columns)
  const start = heuristic ? startFrom(heuristic, listed) : null
  const answer = await solveWholeNumbers({
    columns: scaledColumns,
    rows,
    proofGap: 0.999,
    ...(start ? { start } : {}),
  })
  if (!answer.found) return answer.because === 'no-solution' ? 'no-solution' : 'stopped'
  const chosen = listed.flatMap(({ kind, pattern }, index) => {
    const barCount = answer.amounts[index] ?? 0
    return barCount > 0 ? [{ kind, pattern, barCount }] : []
  })
  return {
    chosen: preferShorterBars(withoutSurplus(chosen, demand), kinds, demand.lengthsMm, (kind, pattern) =>
      netCents(kind, pattern, input),
    ),
    proven: answer.proven,
    lowerBoundCents: Math.max(0, Math.ceil(answer.lowerBound - 1e-6)) * unitCents,
    patternCount: listed.length,
  }
}

/**
 * What the pieces cost at least, whatever the cutting: their length at the cheapest price of a length of room.
 *   sum n (l + k) * min over bars of cost / room, 0 where a leftover is worth as much as the bar; less half a cent a piece for rounded values
 * Source: length bound of cutting stock. Valid: never above the least cost.
 */
export function lengthBoundCents(
  pieces: readonly CutPiece[],
  kinds: readonly BarKind[],
  offcutValueCentsPerM: number,
): number {
  const kerfMm = kinds[0]?.cutting.kerfMm ?? 0
  const centsPerMm = Math.min(
    ...kinds.map(({ costCents, cutting }) => {
      const rate = costCents / Math.max(roomMm(cutting), 1)
      return rate > offcutValueCentsPerM / 1000 ? rate : 0
    }),
  )
  const neededMm = pieces.reduce((sum, { lengthMm, pieceCount }) => sum + pieceCount * (lengthMm + kerfMm), 0)
  const pieceCount = pieces.reduce((sum, piece) => sum + piece.pieceCount, 0)
  const rounding = offcutValueCentsPerM > 0 ? 0.5 * pieceCount : 0
  return Math.max(0, Math.ceil(neededMm * centsPerMm - rounding - 1e-6))
}

/** Net cost of a bar cut so: its price less what its leftover is worth back on the rack, in whole cents. */
function netCents(kind: BarKind, pattern: CutPattern, input: NestInput): number {
  return kind.costCents - leftoverValueCents(input, kind.costCents, pattern.leftoverMm)
}

/** Costs over their greatest common divisor: whole numbers as small as can be, so that the proof rounds up by whole units. */
function inCommonUnit(columns: readonly SolverColumn[]): { columns: SolverColumn[]; unitCents: number } {
  const unitCents =
    columns.reduce((divisor, { cost }) => greatestCommonDivisor(divisor, Math.abs(cost)), 0) || 1
  return { columns: columns.map((column) => ({ ...column, cost: column.cost / unitCents })), unitCents }
}

function greatestCommonDivisor(one: number, other: number): number {
  return other === 0 ? one : greatestCommonDivisor(other, one % other)
}

/** The heuristic's plan in the listed patterns; each of its bars takes a listed pattern that covers it. */
function startFrom(
  heuristic: readonly ChosenPattern[],
  listed: readonly { readonly kind: BarKind; readonly pattern: CutPattern }[],
): number[] | null {
  const amounts = listed.map(() => 0)
  for (const { kind, pattern, barCount } of heuristic) {
    const index = listed.findIndex(
      (one) => one.kind === kind && one.pattern.counts.every((count, i) => count >= (pattern.counts[i] ?? 0)),
    )
    if (index === -1) return null
    amounts[index] = (amounts[index] ?? 0) + barCount
  }
  return amounts
}

/** Bars that are alike (same length, cost and kind) taken together; bought lengths without end unless told. */
function barKinds(input: NestInput): BarKind[] {
  const kinds = new Map<string, { -readonly [Key in keyof BarKind]: BarKind[Key] } & { keys: string[] }>()
  for (const bar of input.rack) {
    const name = `${bar.kind} ${bar.lengthMm} ${bar.costCents}`
    const kind = kinds.get(name)
    if (kind) {
      kind.keys.push(bar.key)
      kind.barCount = (kind.barCount ?? 0) + 1
    } else {
      kinds.set(name, {
        source: 'rack',
        kind: bar.kind,
        keys: [bar.key],
        costCents: bar.costCents,
        barCount: 1,
        cutting: cuttingOf(bar.lengthMm, input),
      })
    }
  }
  const bought = input.buyable.map(
    (length): BarKind => ({
      source: 'buy',
      kind: 'bar',
      keys: [length.key],
      costCents: length.priceCents,
      barCount: length.availableCount ?? null,
      cutting: cuttingOf(length.lengthMm, input),
    }),
  )
  return [...kinds.values(), ...bought]
}

function cuttingOf(barLengthMm: number, input: NestInput): BarCutting {
  return { barLengthMm, kerfMm: input.kerfMm, endTrimMm: input.endTrimMm, trimFarEnd: input.trimFarEnd }
}

function emptyPlan(): NestPlan {
  return {
    bars: [],
    toBuy: [],
    returned: [],
    boughtCents: 0,
    rackCents: 0,
    returnedCents: 0,
    netCents: 0,
    usedLengthMm: 0,
    piecesLengthMm: 0,
    wasteMm: 0,
    wasteFraction: 0,
    proof: { method: 'exact', proven: true, lowerBoundCents: 0, patternCount: 0, text: 'nothing to cut' },
  }
}

function requireNest(input: NestInput): void {
  for (const { lengthMm, pieceCount } of input.pieces) {
    if (!(lengthMm > 0)) throw new RangeError(`A piece has a length, not ${lengthMm} mm.`)
    if (!Number.isInteger(pieceCount) || pieceCount < 0) {
      throw new RangeError(`Pieces are counted from 0, not ${pieceCount}.`)
    }
  }
  for (const { lengthMm } of [...input.rack, ...input.buyable]) {
    if (!(lengthMm > 0)) throw new RangeError(`A bar has a length, not ${lengthMm} mm.`)
  }
  for (const cents of [
    ...input.rack.map(({ costCents }) => costCents),
    ...input.buyable.map(({ priceCents }) => priceCents),
  ]) {
    if (!Number.isSafeInteger(cents) || cents < 0)
      throw new RangeError(`A bar costs whole cents, not ${cents}.`)
  }
  if (
    !(
      input.kerfMm >= 0 &&
      input.endTrimMm >= 0 &&
      input.keepOffcutFromMm >= 0 &&
      input.offcutValueCentsPerM >= 0
    )
  ) {
    throw new RangeError('Kerf, end trim, the offcut length kept and its value are zero or more.')
  }
}
