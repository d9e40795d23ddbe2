/** What is cut from one bar: how many of each length, in the order of the lengths. */
export interface CutPattern {
  readonly counts: readonly number[]
  /** Bar length used up: crop, pieces and kerfs. */
  readonly usedMm: number
  /** What is left of the bar past the last kerf. */
  readonly leftoverMm: number
}

export interface BarCutting {
  readonly barLengthMm: number
  readonly kerfMm: number
  /** Cropped from the first end, its kerf counted in. */
  readonly endTrimMm: number
  /** Whether the last piece needs a cut of its own; false lets it end at the bar's far end. */
  readonly trimFarEnd: boolean
}

/**
 * Length in which pieces with their kerfs must fit.
 *   far end as it is: L - trim + k;  far end cut too: L - trim
 * Source: n pieces need sum l + (n-1) k where the last ends at the bar's end, sum l + n k where it is cut off. Valid: zero where nothing fits.
 */
export function roomMm(bar: BarCutting): number {
  const room = bar.barLengthMm - bar.endTrimMm + (bar.trimFarEnd ? 0 : bar.kerfMm)
  return Math.max(0, room)
}

/** Pieces of one length that a bar gives. floor(room / (l + k)) */
export function piecesPerBar(lengthMm: number, bar: BarCutting): number {
  return Math.floor((roomMm(bar) + lengthSlackMm) / (lengthMm + bar.kerfMm))
}

/** Lengths that differ by less than this are the same: floats of inches must not lose a piece. */
export const lengthSlackMm = 1e-6

/** The pattern that cuts given counts from a bar; null where they do not fit. */
export function patternOf(
  counts: readonly number[],
  lengthsMm: readonly number[],
  bar: BarCutting,
): CutPattern | null {
  const takenMm = counts.reduce((sum, count, i) => sum + count * ((lengthsMm[i] ?? 0) + bar.kerfMm), 0)
  const restMm = roomMm(bar) - takenMm
  if (restMm < -lengthSlackMm) return null
  const leftoverMm = Math.max(0, bar.trimFarEnd ? restMm : restMm - bar.kerfMm)
  return { counts, usedMm: bar.barLengthMm - leftoverMm, leftoverMm }
}

/**
 * Every pattern worth having: those no further piece fits in, and those that leave an offcut worth keeping.
 *   each other pattern costs the same as a fuller one, so leaving it out loses nothing
 * Valid: stops and answers null past `most` patterns, or past a hundred ways looked at for each.
 */
export function usefulPatterns(
  demand: { readonly lengthsMm: readonly number[]; readonly pieceCounts: readonly number[] },
  bar: BarCutting,
  keep: { readonly fromMm: number },
  most: number,
): CutPattern[] | null {
  const { lengthsMm, pieceCounts } = demand
  const counts: number[] = []
  const patterns: CutPattern[] = []
  let tooMany = false
  let looked = 0

  const place = (index: number, restMm: number): void => {
    if (tooMany) return
    if (index === lengthsMm.length) {
      looked += 1
      if (looked > 100 * most) tooMany = true
      const pattern = patternOf([...counts], lengthsMm, bar)
      if (!pattern || counts.every((count) => count === 0)) return
      const kept = pattern.leftoverMm >= keep.fromMm - lengthSlackMm
      if (!kept && canTakeMore(counts, restMm)) return
      patterns.push(pattern)
      if (patterns.length > most) tooMany = true
      return
    }
    const eachMm = (lengthsMm[index] ?? 0) + bar.kerfMm
    const fits = Math.min(pieceCounts[index] ?? 0, Math.floor((restMm + lengthSlackMm) / eachMm))
    for (let count = fits; count >= 0; count -= 1) {
      counts[index] = count
      place(index + 1, restMm - count * eachMm)
    }
  }

  const canTakeMore = (taken: readonly number[], restMm: number): boolean =>
    lengthsMm.some(
      (lengthMm, i) =>
        (taken[i] ?? 0) < (pieceCounts[i] ?? 0) && lengthMm + bar.kerfMm <= restMm + lengthSlackMm,
    )

  place(0, roomMm(bar))
  return tooMany ? null : patterns
}
