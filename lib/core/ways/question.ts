import type { SpecInput, SpecMethod, SpecStrap, SpecTube } from '@/lib/core/spec/contract'
import type { Pour } from '@/lib/core/spec/shop-tools'

/** A part and what the shop has to make it with: what every way of making it is judged by. */
export interface WaysQuestion {
  /** The part on the chosen press. Its method and die are put aside: each way has its own. */
  readonly spec: SpecInput
  readonly angleToleranceDeg: number
  /** The springback factor that finished bends of this material taught for a way of holding the tube; absent: the model's own. */
  readonly springbackFactorOf?: (method: SpecMethod) => number | undefined
  /** The strap on the rack that a way with a strap uses; absent: one to make. */
  readonly strap?: SpecStrap
  /** The pot of low-melt alloy that a filled way uses; absent: the usual one. */
  readonly lowMelt?: Pour
  /** Kilograms of it in the pot. */
  readonly fillerStockKg?: number
  /** Surface radii of the dies on the rack. */
  readonly dieRadiiMm?: readonly number[]
  /** Shortest and longest span the press takes. */
  readonly spanLimits?: { readonly lowMm: number; readonly highMm: number }
  /** Outside benders that have given a price for it. */
  readonly outsideQuoteCount?: number
  readonly couldHurt?: boolean
}

/**
 * The strap to make where the rack has none: 3.2 mm steel strip as wide as the tube, yield 350 MPa.
 * Source: common practice, no source.
 */
export function strapToMake(tube: SpecTube): SpecStrap {
  return { thicknessMm: 3.2, widthMm: tube.widthMm, yieldMPa: 350 }
}
