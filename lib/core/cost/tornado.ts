import { type CostItem, type CostModel, costAtCents } from '@/lib/core/cost/cost-model'
import { spreadMean, spreadQuantile } from '@/lib/core/cost/spread'
import { startsForConfidence } from '@/lib/core/cost/yield'

/** How far one thing moves the order's cost, all else at its mean. */
export interface TornadoBar {
  readonly key: string
  readonly label: string
  readonly lowCents: number
  readonly highCents: number
  readonly swingCents: number
}

/**
 * What moves the answer most, largest first.
 *   each item in turn at its 10th and 90th percentile, the others at their means, starts at the likely count; then the starts likewise
 * Source: one-at-a-time sensitivity (tornado diagram), R. T. Clemen, Making Hard Decisions. Valid: items independent; bars do not add up.
 */
export function tornado(model: CostModel, most = 12): TornadoBar[] {
  const middleStarts = startsAt(model, 0.5)
  const meanOf = (item: CostItem): number => spreadMean({ shape: 'pert', ...item.quantity })
  const bars = model.items
    .filter((item) => item.group !== 'waiting' && item.quantity.high > item.quantity.low)
    .map((item): TornadoBar => {
      const at = (p: number): number =>
        costAtCents(model, middleStarts, (other) =>
          other === item ? spreadQuantile({ shape: 'pert', ...item.quantity }, p) : meanOf(other),
        )
      return bar(item.key, item.label, at(0.1), at(0.9))
    })
  if (model.yieldFraction < 1) {
    const at = (p: number): number => costAtCents(model, startsAt(model, p), meanOf)
    bars.push(bar('starts', 'Starts for the good pieces', at(0.1), at(0.9)))
  }
  return bars.sort((one, other) => other.swingCents - one.swingCents).slice(0, most)
}

function startsAt(model: CostModel, confidence: number): number {
  return startsForConfidence(model.goodPieces, model.yieldFraction, confidence)
}

function bar(key: string, label: string, lowCents: number, highCents: number): TornadoBar {
  return { key, label, lowCents, highCents, swingCents: Math.abs(highCents - lowCents) }
}
