export type CutLeft = { fits: true; leftMm: number } | { fits: false; lackMm: number }

/** What a sawn length may be over what is left, from reading a tape: less than this is no lack. */
const tapeMm = 0.5

/**
 * What is left of a bar after pieces of one length are sawn off it.
 *   left = bar - n * (length + kerf); the last kerf is not needed where the last piece is the bar's end
 * Source: geometry. Valid: lengths above zero, whole n from 1.
 */
export function cutLeft(cut: {
  readonly barMm: number
  readonly lengthMm: number
  readonly pieceCount: number
  readonly kerfMm: number
}): CutLeft {
  const { barMm, lengthMm, pieceCount, kerfMm } = cut
  if (!(barMm > 0 && lengthMm > 0 && kerfMm >= 0)) {
    throw new RangeError('A bar and a piece are longer than nothing, and a saw takes no less than nothing.')
  }
  if (!Number.isInteger(pieceCount) || pieceCount < 1) {
    throw new RangeError(`At least one piece is sawn, not ${pieceCount}.`)
  }
  const leftMm = barMm - pieceCount * (lengthMm + kerfMm)
  if (leftMm >= 0) return { fits: true, leftMm }
  const lackMm = -leftMm - kerfMm
  return lackMm <= tapeMm ? { fits: true, leftMm: 0 } : { fits: false, lackMm }
}
