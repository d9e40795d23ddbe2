/** From this many pieces on, this side costs less, until the next entry. */
export interface CheaperFrom {
  readonly fromPieceCount: number
  readonly cheaper: 'make' | 'buy' | 'tie'
  readonly makeCents: number
  readonly buyCents: number
}

export interface BreakEven {
  readonly ranges: readonly CheaperFrom[]
  /** The first count at which the cheaper side changes; null where it never does in the range looked at. */
  readonly switchPieceCount: number | null
  readonly lookedUpTo: number
  readonly text: string
}

/**
 * Which side costs less at each order size.
 *   both costs are computed at every count from 1: with least orders, breaks and yields they have steps and kinks, so nothing is solved for
 * Source: break-even analysis by comparison. Valid: 1 to `upTo` pieces.
 */
export function breakEven(
  makeCents: (pieceCount: number) => number,
  buyCents: (pieceCount: number) => number,
  upTo = 200,
): BreakEven {
  const ranges: CheaperFrom[] = []
  for (let pieceCount = 1; pieceCount <= upTo; pieceCount += 1) {
    const make = makeCents(pieceCount)
    const buy = buyCents(pieceCount)
    const cheaper = Math.abs(make - buy) < 0.5 ? 'tie' : make < buy ? 'make' : 'buy'
    if (ranges.at(-1)?.cheaper !== cheaper) {
      ranges.push({ fromPieceCount: pieceCount, cheaper, makeCents: make, buyCents: buy })
    }
  }
  return {
    ranges,
    switchPieceCount: ranges[1]?.fromPieceCount ?? null,
    lookedUpTo: upTo,
    text: breakEvenText(ranges, upTo),
  }
}

/**
 * Order size at which two straight cost lines cross.
 *   Q = (F1 - F2) / (v2 - v1)
 * Source: break-even analysis, textbook form. Valid: straight lines only; a union where they never cross above zero.
 */
export function crossingPieceCount(
  one: { readonly fixedCents: number; readonly eachCents: number },
  other: { readonly fixedCents: number; readonly eachCents: number },
):
  | { readonly found: true; readonly pieceCount: number }
  | { readonly found: false; readonly because: 'parallel' | 'never-above-zero' } {
  if (one.eachCents === other.eachCents) return { found: false, because: 'parallel' }
  const pieceCount = (one.fixedCents - other.fixedCents) / (other.eachCents - one.eachCents)
  return pieceCount > 0 ? { found: true, pieceCount } : { found: false, because: 'never-above-zero' }
}

function breakEvenText(ranges: readonly CheaperFrom[], upTo: number): string {
  const words = { make: 'make', buy: 'buy', tie: 'a tie' }
  const parts = ranges.map(({ fromPieceCount, cheaper }, index) => {
    const to = (ranges[index + 1]?.fromPieceCount ?? upTo + 1) - 1
    const open = index === ranges.length - 1
    if (open)
      return index === 0
        ? `${words[cheaper]} at every count up to ${upTo}`
        : `${words[cheaper]} from ${fromPieceCount}`
    return fromPieceCount === to ? `${words[cheaper]} at ${to}` : `${words[cheaper]} to ${to}`
  })
  return parts.join(', ')
}
