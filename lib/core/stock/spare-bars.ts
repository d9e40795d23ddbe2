import { lengthSlackMm, patternOf } from '@/lib/core/stock/cut-patterns'
import type { BarKind, ChosenPattern } from '@/lib/core/stock/nest-plan'

/**
 * The same cuts from shorter rack bars where that costs no more: the long bar stays whole for the next job.
 *   each rack bar chosen is exchanged for the shortest unused one that holds its cuts at no higher net cost
 * Valid: the net cost of the plan never rises, so a proof of it stands.
 */
export function preferShorterBars(
  chosen: readonly ChosenPattern[],
  kinds: readonly BarKind[],
  lengthsMm: readonly number[],
  netCents: (kind: BarKind, pattern: ChosenPattern['pattern']) => number,
): ChosenPattern[] {
  const free = new Map(kinds.map((kind) => [kind, kind.barCount ?? 0]))
  for (const { kind, barCount } of chosen) free.set(kind, (free.get(kind) ?? 0) - barCount)
  const byLength = kinds
    .filter(({ source }) => source === 'rack')
    .sort((one, other) => one.cutting.barLengthMm - other.cutting.barLengthMm)
  return chosen.flatMap((choice): ChosenPattern[] => {
    if (choice.kind.source !== 'rack') return [choice]
    const bars = Array.from({ length: choice.barCount }, (): ChosenPattern => {
      for (const kind of byLength) {
        if (kind.cutting.barLengthMm >= choice.kind.cutting.barLengthMm - lengthSlackMm) break
        const pattern = patternOf(choice.pattern.counts, lengthsMm, kind.cutting)
        if (!pattern || (free.get(kind) ?? 0) < 1) continue
        if (netCents(kind, pattern) > netCents(choice.kind, choice.pattern)) continue
        free.set(kind, (free.get(kind) ?? 0) - 1)
        free.set(choice.kind, (free.get(choice.kind) ?? 0) + 1)
        return { kind, pattern, barCount: 1 }
      }
      return { ...choice, barCount: 1 }
    })
    return bars
  })
}

/**
 * Chosen bars without what nobody asked for: whole bars first, the dearest and longest, then single cuts.
 * Valid: chosen bars that cover the demand; the net cost never rises.
 */
export function withoutSurplus(
  chosen: readonly ChosenPattern[],
  demand: { readonly lengthsMm: readonly number[]; readonly pieceCounts: readonly number[] },
): ChosenPattern[] {
  const surplus = demand.pieceCounts.map(
    (wanted, piece) =>
      chosen.reduce((sum, { pattern, barCount }) => sum + (pattern.counts[piece] ?? 0) * barCount, 0) -
      wanted,
  )
  const bars = chosen
    .flatMap((choice) => Array.from({ length: choice.barCount }, () => ({ ...choice, barCount: 1 })))
    .sort(
      (one, other) =>
        other.kind.costCents - one.kind.costCents ||
        other.kind.cutting.barLengthMm - one.kind.cutting.barLengthMm,
    )
  const needed = bars.filter(({ pattern }) => {
    const spare = pattern.counts.every((count, piece) => count <= (surplus[piece] ?? 0))
    if (spare) take(pattern.counts)
    return !spare
  })
  return needed.map((bar) => {
    const dropped = bar.pattern.counts.map((count, piece) =>
      Math.min(count, Math.max(0, surplus[piece] ?? 0)),
    )
    take(dropped)
    const counts = bar.pattern.counts.map((count, piece) => count - (dropped[piece] ?? 0))
    return { ...bar, pattern: patternOf(counts, demand.lengthsMm, bar.kind.cutting) ?? bar.pattern }
  })

  function take(counts: readonly number[]): void {
    counts.forEach((count, piece) => {
      surplus[piece] = (surplus[piece] ?? 0) - count
    })
  }
}
