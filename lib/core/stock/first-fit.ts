import { lengthSlackMm, patternOf, piecesPerBar, roomMm } from '@/lib/core/stock/cut-patterns'
import type { BarKind, ChosenPattern, CutPiece } from '@/lib/core/stock/nest-plan'

interface OpenBar {
  readonly kind: BarKind
  readonly counts: number[]
  restMm: number
}

/**
 * A quick cutting plan: longest pieces first, each into the first open bar with room, else into a new bar.
 *   a new bar is the cheapest for its length that holds the piece, rack before bought; no proof of the least cost
 * Source: first-fit-decreasing; with one bar length at most 11/9 of the least count and 6/9 of a bar (G. Dosa, 2007).
 * Valid: null where the bars run out.
 */
export function firstFitDecreasing(
  pieces: readonly CutPiece[],
  kinds: readonly BarKind[],
): ChosenPattern[] | null {
  const lengthsMm = pieces.map(({ lengthMm }) => lengthMm)
  const order = pieces
    .map(({ lengthMm, pieceCount }, index) => ({ lengthMm, pieceCount, index }))
    .sort((one, other) => other.lengthMm - one.lengthMm)
  const used = new Map<BarKind, number>()
  const open: OpenBar[] = []
  for (const { lengthMm, pieceCount, index } of order) {
    for (let i = 0; i < pieceCount; i += 1) {
      const bar = open.find(({ kind, restMm }) => lengthMm + kind.cutting.kerfMm <= restMm + lengthSlackMm)
      const taken = bar ?? openBar(lengthMm)
      if (!taken) return null
      taken.counts[index] = (taken.counts[index] ?? 0) + 1
      taken.restMm -= lengthMm + taken.kind.cutting.kerfMm
    }
  }
  return gather(open, lengthsMm)

  function openBar(lengthMm: number): OpenBar | null {
    const kind = kinds
      .filter(({ cutting }) => piecesPerBar(lengthMm, cutting) >= 1)
      .filter((one) => one.barCount === null || (used.get(one) ?? 0) < one.barCount)
      .sort(
        (one, other) =>
          costPerMm(one) - costPerMm(other) || one.cutting.barLengthMm - other.cutting.barLengthMm,
      )[0]
    if (!kind) return null
    used.set(kind, (used.get(kind) ?? 0) + 1)
    const bar = { kind, counts: lengthsMm.map(() => 0), restMm: roomMm(kind.cutting) }
    open.push(bar)
    return bar
  }
}

function costPerMm(kind: BarKind): number {
  return kind.costCents / kind.cutting.barLengthMm
}

function gather(open: readonly OpenBar[], lengthsMm: readonly number[]): ChosenPattern[] {
  const chosen = new Map<string, { kind: BarKind; counts: readonly number[]; barCount: number }>()
  for (const { kind, counts } of open) {
    const name = `${kind.source} ${kind.keys[0] ?? ''} ${counts.join(',')}`
    const same = chosen.get(name)
    if (same) same.barCount += 1
    else chosen.set(name, { kind, counts, barCount: 1 })
  }
  return [...chosen.values()].flatMap(({ kind, counts, barCount }) => {
    const pattern = patternOf(counts, lengthsMm, kind.cutting)
    return pattern ? [{ kind, pattern, barCount }] : []
  })
}
