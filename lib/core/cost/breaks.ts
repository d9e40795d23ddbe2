import { marginAndMarkup } from '@/lib/core/cost/money'

/** One step of a price list: from this many pieces on, each costs this. */
export interface PriceBreak {
  readonly fromPieceCount: number
  readonly unitPriceCents: number
}

/**
 * The step of a price list that an order falls in; null below the first step.
 * Source: all-units price list. Valid: steps in any order, each from a different count.
 */
export function breakFor(breaks: readonly PriceBreak[], pieceCount: number): PriceBreak | null {
  return sortedBreaks(breaks).findLast((step) => step.fromPieceCount <= pieceCount) ?? null
}

/** What an order of a size costs by a price list, and the cheaper larger order where there is one. */
export interface OrderPrice {
  readonly orderedPieceCount: number
  readonly totalCents: number
  readonly cheaperLargerOrder: { readonly pieceCount: number; readonly totalCents: number } | null
}

/**
 * The price of an order, raised to the list's least order, with a hint where ordering more costs less.
 *   ordering Q2 beats Q when Q > Q2 * p2 / p1
 * Source: dominance of all-units price breaks. Valid: list not empty, pieces from 1.
 */
export function orderPrice(breaks: readonly PriceBreak[], pieceCount: number): OrderPrice {
  const steps = sortedBreaks(breaks)
  const first = steps[0]
  if (!first) throw new RangeError('A price list needs at least one step.')
  const orderedPieceCount = Math.max(pieceCount, first.fromPieceCount)
  const step = breakFor(steps, orderedPieceCount) ?? first
  const totalCents = orderedPieceCount * step.unitPriceCents
  let cheaper: OrderPrice['cheaperLargerOrder'] = null
  for (const later of steps) {
    if (later.fromPieceCount <= orderedPieceCount) continue
    const laterCents = later.fromPieceCount * later.unitPriceCents
    if (laterCents < (cheaper?.totalCents ?? totalCents)) {
      cheaper = { pieceCount: later.fromPieceCount, totalCents: laterCents }
    }
  }
  return { orderedPieceCount, totalCents, cheaperLargerOrder: cheaper }
}

/** A place in a price list where a larger order would cost less in total than a smaller one. */
export interface DominatedRange {
  readonly fromPieceCount: number
  readonly toPieceCount: number
  readonly cheaperPieceCount: number
  readonly cheaperTotalCents: number
}

/**
 * Every range of order sizes in which the next step's least order is cheaper in total: a price list without these is fair.
 *   counts Q below Q2 with Q p1 > Q2 p2
 * Source: dominance of all-units price breaks; 100 at 9 against 10 each: from 91 up buy 100, a tie at 90.
 */
export function dominatedRanges(breaks: readonly PriceBreak[]): DominatedRange[] {
  const steps = sortedBreaks(breaks)
  const ranges: DominatedRange[] = []
  steps.forEach((step, index) => {
    const next = steps[index + 1]
    if (!next) return
    const cheaperTotalCents = next.fromPieceCount * next.unitPriceCents
    const fromPieceCount = Math.max(
      step.fromPieceCount,
      Math.floor(cheaperTotalCents / step.unitPriceCents) + 1,
    )
    const toPieceCount = next.fromPieceCount - 1
    if (fromPieceCount > toPieceCount) return
    ranges.push({ fromPieceCount, toPieceCount, cheaperPieceCount: next.fromPieceCount, cheaperTotalCents })
  })
  return ranges
}

/**
 * Cost of one piece when the set-up is shared by the order.
 *   S / Q + v
 * Source: definition. Valid: Q >= 1.
 */
export function unitCostCents(setUpCents: number, eachCents: number, pieceCount: number): number {
  if (!(pieceCount >= 1)) throw new RangeError(`An order has one piece or more, not ${pieceCount}.`)
  return setUpCents / pieceCount + eachCents
}

export interface QuotedBreak extends PriceBreak {
  readonly unitCostCents: number
  readonly totalCents: number
  readonly marginFraction: number | null
  readonly markupFraction: number | null
}

/**
 * A price list from costs at each quantity, with what each step earns; hand the result to `dominatedRanges` before it is sent.
 * Source: definitions of margin and markup. Valid: one step or more.
 */
export function quotedBreaks(
  costs: readonly { readonly fromPieceCount: number; readonly unitCostCents: number }[],
  priceOf: (unitCostCents: number) => number,
): QuotedBreak[] {
  return [...costs]
    .sort((one, other) => one.fromPieceCount - other.fromPieceCount)
    .map((cost) => {
      const unitPriceCents = priceOf(cost.unitCostCents)
      const { marginFraction, markupFraction } = marginAndMarkup(cost.unitCostCents, unitPriceCents)
      return {
        ...cost,
        unitPriceCents,
        totalCents: unitPriceCents * cost.fromPieceCount,
        marginFraction,
        markupFraction,
      }
    })
}

function sortedBreaks(breaks: readonly PriceBreak[]): PriceBreak[] {
  const steps = [...breaks].sort((one, other) => one.fromPieceCount - other.fromPieceCount)
  steps.forEach((step, index) => {
    if (!Number.isInteger(step.fromPieceCount) || step.fromPieceCount < 1) {
      throw new RangeError(
        `A price step starts at a whole number of pieces from 1, not ${step.fromPieceCount}.`,
      )
    }
    if (step.fromPieceCount === steps[index + 1]?.fromPieceCount) {
      throw new RangeError(`Two price steps start at ${step.fromPieceCount} pieces.`)
    }
  })
  return steps
}
